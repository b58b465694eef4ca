import { spawn, spawnSync } from 'node:child_process';
import { readFile } from 'node:fs/promises';

/** Postgres refuses to run as root: under whom its programs are run, and behind which command. */
export type RunAs = { uid?: number; gid?: number; prefix: readonly string[] };

const USER_NAMESPACE = ['unshare', '--user', '--map-user=1000', '--map-group=1000', '--'] as const;

/** Whose the data folder is; null where there is none yet. */
type Owner = { uid: number; gid: number } | null;

/**
 * An ordinary user runs Postgres as itself. Root runs it under the account that the data folder belongs to, a new one
 * under `postgres` or `nobody` where that account can reach the files, else in a user namespace. No account is ever
 * created.
 * @param paths folders and programs that must be reachable
 */
export async function chooseRunAs(paths: readonly string[], owner: Owner): Promise<RunAs> {
  const uid = process.getuid?.();
  if (uid === undefined) return { prefix: [] };
  if (uid !== 0) {
    if (owner === null || owner.uid === uid) return { prefix: [] };
    throw new Error(
      `The database in ${paths[0]} belongs to the account number ${owner.uid}, and this is ${uid}: start as that account, or name another folder in SLACKWATER_DATA.`,
    );
  }
  const account = owner ?? (await lesserAccount());
  const reaches = (path: string) =>
    spawnSync('test', ['-x', path], { uid: account.uid, gid: account.gid }).status === 0;
  if (account.uid !== 0 && paths.every(reaches)) return { uid: account.uid, gid: account.gid, prefix: [] };
  const [command, ...rest] = USER_NAMESPACE;
  const ownsData = owner === null || owner.uid === 0;
  if (ownsData && spawnSync(command, [...rest, 'true']).status === 0) return { prefix: USER_NAMESPACE };
  throw new Error(
    `Postgres may not run as root, and the account number ${account.uid} cannot reach ${paths.find((path) => !reaches(path))}. ` +
      'Clone to a folder that every account may enter, start as an ordinary user, or set DATABASE_URL.',
  );
}

async function lesserAccount(): Promise<{ uid: number; gid: number }> {
  const accounts = (await readFile('/etc/passwd', 'utf8')).split('\n').map((line) => line.split(':'));
  const account = accounts.find(([name]) => name === 'postgres') ?? accounts.find(([name]) => name === 'nobody');
  return { uid: Number(account?.[2] ?? 65534), gid: Number(account?.[3] ?? 65534) };
}

/** Runs one program to its end. Its output is collected, never inherited: a daemon would hold our streams open. */
export function runProgram(
  file: string,
  args: readonly string[],
  { prefix, ...as }: RunAs,
): Promise<{ code: number | null; output: string }> {
  return new Promise((resolve, reject) => {
    const [command, ...rest] = [...prefix, file, ...args] as [string, ...string[]];
    const child = spawn(command, rest, {
      ...as,
      // a Ctrl-C is for us alone: we end things in order
      detached: process.platform !== 'win32',
      stdio: ['ignore', 'pipe', 'pipe'],
      env: { ...process.env, LC_ALL: 'C' },
    });
    let output = '';
    const collect = (chunk: Buffer) => {
      output += chunk;
    };
    child.stdout.on('data', collect);
    child.stderr.on('data', collect);
    child.on('error', reject);
    child.on('exit', (code) => {
      child.stdout.destroy();
      child.stderr.destroy();
      resolve({ code, output });
    });
  });
}
