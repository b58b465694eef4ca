// The real process on a data folder of its own: first start, second start, signals, kills.
import { existsSync } from 'node:fs';
import { chmod, mkdtemp, readFile, rm, stat, writeFile } from 'node:fs/promises';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { startCluster } from '@slackwater/tools/cluster';
import pg from 'pg';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { launchServer, runToEnd, type ServerProcess, startServer } from '../support/server-process.ts';

// whole processes start and stop here, on a machine that may be busy
vi.setConfig({ testTimeout: 120_000, hookTimeout: 60_000 });

const PASSWORD = 'tide-table-24';

let data: string;
let running: ServerProcess[] = [];

beforeEach(async () => {
  data = await mkdtemp(join(tmpdir(), 'slackwater-start-'));
  await chmod(data, 0o755);
});

afterEach(async () => {
  for (const server of running) await server.end('SIGKILL');
  running = [];
  if (existsSync(join(data, 'pg'))) await (await startCluster(data)).stop();
  await rm(data, { recursive: true, force: true });
});

async function start(settings: Record<string, string> = {}): Promise<ServerProcess> {
  const server = await startServer({ SLACKWATER_DATA: data, ...settings });
  running.push(server);
  return server;
}

async function postmasterPid(): Promise<number> {
  return Number((await readFile(join(data, 'pg/postmaster.pid'), 'utf8')).split('\n')[0]);
}

async function signIn({ url }: ServerProcess, login = 'whitlock'): Promise<Response> {
  return fetch(`${url}/api/sign-in`, {
    method: 'POST',
    headers: { 'content-type': 'application/json', origin: url },
    body: JSON.stringify({ login, password: PASSWORD }),
  });
}

async function newest(server: ServerProcess): Promise<{ epoch: string; position: number }> {
  const cookie = (await signIn(server, 'adair')).headers.getSetCookie().join('; ');
  const board = await fetch(`${server.url}/api/wards/kestrel/board`, { headers: { cookie } });
  return board.json() as Promise<{ epoch: string; position: number }>;
}

test('the first start serves the demonstration, says where and how to sign in, and SIGTERM ends all of it', async () => {
  const server = await start();
  expect(server.said()).toContain(`http://127.0.0.1:${server.port}`);
  expect(server.said()).toContain(PASSWORD);
  expect((await signIn(server)).status).toBe(200);
  expect((await fetch(`${server.url}/api/health`)).status).toBe(200);

  expect(await server.end('SIGTERM')).toBe(0);
  expect(existsSync(join(data, 'pg/postmaster.pid'))).toBe(false);
  await expect(fetch(`${server.url}/api/health`)).rejects.toThrow();
});

test('asked to stop while it starts, it leaves no database behind', async () => {
  const launched = await launchServer({ SLACKWATER_DATA: data });
  const isUp = async () => existsSync(join(data, 'pg/postmaster.pid'));
  await expect.poll(isUp, { timeout: 60_000 }).toBe(true);
  expect(await launched.end('SIGTERM')).toBe(0);
  expect(launched.said()).not.toContain('Slackwater is at');
  expect(await isUp()).toBe(false);
});

test('Ctrl-C ends all of it, while a board watches', async () => {
  const server = await start();
  const cookie = (await signIn(server, 'adair')).headers.getSetCookie().join('; ');
  const stream = await fetch(`${server.url}/api/wards/kestrel/stream`, {
    headers: { cookie, accept: 'text/event-stream' },
  });
  expect(stream.status).toBe(200);
  // from the terminal and from npm: it reaches the process twice
  server.child.kill('SIGINT');
  expect(await server.end('SIGINT')).toBe(0);
  expect(existsSync(join(data, 'pg/postmaster.pid'))).toBe(false);
});

test('a taken port is said in one sentence, before the database is touched', async () => {
  const other = createServer();
  await new Promise<void>((resolve) => other.listen(0, '127.0.0.1', resolve));
  const { port } = other.address() as { port: number };
  const { code, said } = await runToEnd('apps/api/src/server.ts', [], { SLACKWATER_DATA: data, PORT: String(port) });
  other.close();
  expect(code).toBe(1);
  expect(said.trim()).toBe(`Port ${port} on 127.0.0.1 is taken: stop what listens there, or start with another PORT.`);
  expect(existsSync(join(data, 'pg'))).toBe(false);
});

test('two first starts at once share one database, and the last one out stops it', async () => {
  const [first, second] = await Promise.all([start(), start()]);
  expect(await newest(second)).toEqual(await newest(first));

  expect(await first.end('SIGTERM')).toBe(0);
  expect((await fetch(`${second.url}/api/health`)).status).toBe(200);
  expect((await signIn(second)).status).toBe(200);

  expect(await second.end('SIGTERM')).toBe(0);
  expect(existsSync(join(data, 'pg/postmaster.pid'))).toBe(false);
});

test('after a kill of the server the next start adopts its database, with all that was there', async () => {
  const killed = await start();
  const before = await newest(killed);
  const postmaster = await postmasterPid();
  await killed.end('SIGKILL');

  const next = await start();
  expect(await postmasterPid()).toBe(postmaster);
  expect(await newest(next)).toEqual(before);
});

test('after a kill of server and Postgres the next start recovers, with all that was there', async () => {
  const killed = await start();
  const before = await newest(killed);
  process.kill(await postmasterPid(), 'SIGKILL');
  await killed.end('SIGKILL');

  const next = await start();
  expect(await newest(next)).toEqual(before);
  const log = await readFile(join(data, 'pg/server.log'), 'utf8');
  expect(log).toMatch(/was not properly shut down; automatic recovery in progress/);
});

test('a killed Postgres is started again under the running server, which answers 503 meanwhile', async () => {
  const server = await start({ SLACKWATER_DEMO: '0', SLACKWATER_ADMIN: `whitlock:${PASSWORD}` });
  const status = async () => (await signIn(server)).status;
  expect(await status()).toBe(200);
  // held by this process: nobody starts the database before somebody was turned away
  const lock = join(data, 'lock');
  await writeFile(lock, `${process.pid} a test`, { flag: 'wx' });
  try {
    process.kill(await postmasterPid(), 'SIGKILL');
    await expect.poll(status, { timeout: 60_000 }).toBe(503);
    expect((await signIn(server)).headers.get('retry-after')).toBe('2');
  } finally {
    await rm(lock);
  }
  await expect.poll(status, { timeout: 60_000 }).toBe(200);
  expect(server.said()).toMatch(/The database has died and is started again.*The database runs again/s);
  expect(await server.end('SIGTERM')).toBe(0);
  expect(existsSync(join(data, 'pg/postmaster.pid'))).toBe(false);
});

test('a connection that somebody ends is no death: nothing is started, and the last one out still stops it', async () => {
  const server = await start({ SLACKWATER_DEMO: '0' });
  const postmaster = await postmasterPid();
  const client = new pg.Client({ connectionString: (await startCluster(data)).url() });
  await client.connect();
  const keepers = async () =>
    (await client.query("SELECT pid FROM pg_stat_activity WHERE application_name = 'slackwater-keeper'")).rows;
  const ended = (await keepers()).map(({ pid }) => pid);
  await client.query('SELECT pg_terminate_backend(pid) FROM unnest($1::int[]) AS of(pid)', [ended]);
  // the server's, not the one that this test had
  await expect.poll(keepers, { timeout: 30_000 }).toEqual([{ pid: expect.toSatisfy((pid) => !ended.includes(pid)) }]);
  await client.end();
  expect(await postmasterPid()).toBe(postmaster);
  expect(server.said()).not.toContain('died');
  expect(await server.end('SIGTERM')).toBe(0);
  expect(existsSync(join(data, 'pg/postmaster.pid'))).toBe(false);
});

test('passwords of the database stand in files of this account alone, and the server signs in as a role that owns nothing', async () => {
  const server = await start({ SLACKWATER_DEMO: '0' });
  for (const file of ['pg-password', 'role-passwords.json']) {
    expect((await stat(join(data, file))).mode & 0o777).toBe(0o600);
  }
  const cluster = await startCluster(data);
  const client = new pg.Client({ connectionString: cluster.url('slackwater') });
  await client.connect();
  const { rows } = await client.query(
    `SELECT DISTINCT usename AS role FROM pg_stat_activity
     WHERE datname = 'slackwater' AND application_name LIKE 'slackwater%' AND pid <> pg_backend_pid()`,
  );
  await client.end();
  expect(rows).toEqual([{ role: 'slackwater_app' }]);
  await server.end('SIGTERM');
});

test('a demonstration older than six hours says so and names the command for a fresh one', async () => {
  const first = await start();
  expect(first.said()).not.toContain('demo:fresh');
  const client = new pg.Client({ connectionString: (await startCluster(data)).url('slackwater') });
  await client.connect();
  await client.query("UPDATE demonstration SET seeded_at = seeded_at - interval '7 hours'");
  await client.end();
  await first.end('SIGTERM');
  expect((await start()).said()).toContain('This demonstration is 7 h old');
  expect(running.at(-1)?.said()).toContain('npm run demo:fresh');
});

test('without the demonstration nobody has an account, and a link for the first administrator is printed', async () => {
  const server = await start({ SLACKWATER_DEMO: '0' });
  expect(server.said()).toContain('/first-administrator#');
  expect(server.said()).not.toContain(PASSWORD);
  expect((await signIn(server)).status).toBe(401);

  const token = /#(\S+)/.exec(server.said())?.[1];
  const make = () =>
    fetch(`${server.url}/api/first-administrator`, {
      method: 'POST',
      headers: { 'content-type': 'application/json', origin: server.url },
      body: JSON.stringify({ token, login: 'first', name: 'First Administrator', password: 'a long enough one' }),
    });
  expect((await make()).ok).toBe(true);
  expect((await make()).ok).toBe(false);
});

test('the first administrator may come from the environment, once', async () => {
  const settings = { SLACKWATER_DEMO: '0', SLACKWATER_ADMIN: `whitlock:${PASSWORD}` };
  const first = await start(settings);
  expect((await signIn(first)).status).toBe(200);
  await first.end('SIGTERM');
  const again = await start({ ...settings, SLACKWATER_ADMIN: 'whitlock:another long one' });
  expect((await signIn(again)).status).toBe(200);
  expect(again.said()).not.toContain('first administrator');
});
