import { fork } from 'node:child_process';
import { once } from 'node:events';
import { join } from 'node:path';
import { type Settings, startServer } from '../../support/server-process.ts';
import { pin, SERVER_CORE } from './cores.ts';
import { NURSE, PASSWORD, SITE } from './ward.ts';

export type Served = { url: URL; pid: number; stop(): Promise<void> };

/** The real server, as it is started for a hospital, on the servers' core. */
export async function serveApp(databaseUrl: string, further: Settings = {}): Promise<Served> {
  const settings = { DATABASE_URL: databaseUrl, SLACKWATER_SITE: SITE, SLACKWATER_DEMO: '0' };
  const server = await startServer({ ...settings, ...further });
  const pid = server.child.pid!;
  pin(pid, SERVER_CORE);
  return { url: new URL(server.url), pid, stop: () => server.end('SIGTERM').then(() => undefined) };
}

/** A program of `processes/` on the servers' core: it says `{ port }` when it listens, and ends when it is cut off. */
export async function serve(file: string, ...args: readonly string[]): Promise<Served> {
  const child = fork(join(import.meta.dirname, '../processes', file), args, {
    stdio: ['ignore', 'inherit', 'inherit', 'ipc'],
  });
  const pid = child.pid!;
  pin(pid, SERVER_CORE);
  const [told] = (await Promise.race([
    once(child, 'message'),
    once(child, 'exit').then(([code]) => Promise.reject(new Error(`${file} ended with ${code} before it listened.`))),
  ])) as [{ port: number }];
  return {
    url: new URL(`http://127.0.0.1:${told.port}`),
    pid,
    async stop() {
      const ended = once(child, 'exit');
      child.disconnect();
      await ended;
    },
  };
}

/** Signs in over the API. @returns the cookie that every request then carries */
export async function signIn(url: URL, login = NURSE): Promise<string> {
  const answer = await fetch(new URL('/api/sign-in', url), {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ login, password: PASSWORD }),
  });
  if (!answer.ok) throw new Error(`${login} could not sign in: ${answer.status} ${await answer.text()}`);
  return answer.headers
    .getSetCookie()
    .map((one) => one.split(';')[0])
    .join('; ');
}
