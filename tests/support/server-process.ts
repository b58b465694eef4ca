import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { join } from 'node:path';
import { projectRoot } from '@slackwater/tools/paths';
import { freePort } from '@slackwater/tools/ports';

export type ServerProcess = {
  child: ChildProcess;
  url: string;
  port: number;
  /** Everything it has said so far. */
  said(): string;
  /** Sends a signal and waits for the end. @returns its exit code; null when the signal ended it */
  end(signal: NodeJS.Signals): Promise<number | null>;
};

export type Settings = Readonly<Record<string, string>>;

const UNTIL_READY_MS = 60_000;

/** Nothing of the machine's own settings reaches a process that a test starts. */
const bareEnvironment = (): NodeJS.ProcessEnv => ({ PATH: process.env.PATH, HOME: process.env.HOME });

/** Starts the real server as its own process on a free port, and waits for nothing. */
export async function launchServer(settings: Settings) {
  const port = Number(settings.PORT ?? (await freePort()));
  return { ...runNode('apps/api/src/server.ts', [], { ...settings, PORT: String(port) }), port };
}

/** Starts the real server and waits until it says where it is. */
export async function startServer(settings: Settings): Promise<ServerProcess> {
  const { port, ...run } = await launchServer(settings);
  const until = Date.now() + UNTIL_READY_MS;
  while (!run.said().includes('Ctrl-C stops it.')) {
    if (run.child.exitCode !== null || Date.now() > until) {
      run.child.kill('SIGKILL');
      throw new Error(`The server did not start:\n${run.said()}`);
    }
    await new Promise((resolve) => setTimeout(resolve, 25));
  }
  const url = /Slackwater is at (\S+)/.exec(run.said())?.[1] ?? '';
  return { ...run, url, port };
}

/** Runs one of the project's programs to its end. */
export async function runToEnd(
  file: string,
  args: readonly string[],
  settings: Settings,
): Promise<{ code: number | null; said: string }> {
  const run = runNode(file, args, settings);
  if (run.child.exitCode === null) await once(run.child, 'close');
  return { code: run.child.exitCode, said: run.said() };
}

/** Starts one of the project's programs, and waits for nothing. */
export function runNode(file: string, args: readonly string[], settings: Settings) {
  const child = spawn(process.execPath, [join(projectRoot, file), ...args], {
    cwd: projectRoot,
    env: { ...bareEnvironment(), ...settings },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let said = '';
  const collect = (chunk: Buffer) => {
    said += chunk;
  };
  child.stdout.on('data', collect);
  child.stderr.on('data', collect);
  return {
    child,
    said: () => said,
    async end(signal: NodeJS.Signals) {
      if (child.exitCode === null && child.signalCode === null) {
        const ended = once(child, 'exit');
        child.kill(signal);
        await ended;
      }
      return child.exitCode;
    },
  };
}
