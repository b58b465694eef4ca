// The driver's own failures, made by a real Postgres and a real socket: each must read as "send again", not as a fault.
import { connect, createServer, type Socket } from 'node:net';
import { composeApp } from '@slackwater/api/app';
import { isDatabaseAway } from '@slackwater/api/database-away';
import pg from 'pg';
import { afterAll, beforeAll, describe, expect, it, onTestFinished } from 'vitest';
import { type FreshDatabase, freshDatabase } from '../support/database.ts';

let database: FreshDatabase;
beforeAll(async () => {
  database = await freshDatabase();
});
afterAll(() => database.drop());

const failureOf = (failing: Promise<unknown>): Promise<Error> =>
  failing.then(
    () => Promise.reject(new Error('It did not fail.')),
    (error: Error) => error,
  );

/** A way to the database that can be cut. */
async function cuttableWay() {
  const { hostname, port } = new URL(database.appUrl);
  const sockets = new Set<Socket>();
  const way = createServer((near) => {
    const far = connect(Number(port), hostname);
    for (const socket of [near, far]) {
      sockets.add(socket);
      socket.on('error', () => undefined);
    }
    near.pipe(far).pipe(near);
  });
  await new Promise<void>((resolve) => way.listen(0, '127.0.0.1', resolve));
  const cut = () => {
    way.close();
    for (const socket of sockets) socket.destroy();
  };
  onTestFinished(cut);
  const url = new URL(database.appUrl);
  url.port = String((way.address() as { port: number }).port);
  return { url: url.href, cut };
}

async function connected(url: string): Promise<pg.Client> {
  const client = new pg.Client({ connectionString: url });
  client.on('error', () => undefined);
  await client.connect();
  onTestFinished(() => client.end().catch(() => undefined));
  return client;
}

describe('a database that went away', () => {
  it('in the middle of a statement, without a word, is away', async () => {
    const { url, cut } = await cuttableWay();
    const client = await connected(url);
    const asking = failureOf(client.query('SELECT pg_sleep(60)'));
    cut();
    expect(await asking).toSatisfy(isDatabaseAway);
    expect(await failureOf(client.query('SELECT 1'))).toSatisfy(isDatabaseAway);
  });

  it('that ends a connection, or takes none, is away', async () => {
    const client = await connected(database.appUrl);
    const asking = failureOf(client.query('SELECT pg_sleep(60)'));
    const killer = await connected(database.superUrl);
    await killer.query(`SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE query LIKE '%pg_sleep(60)%'
      AND datname = current_database() AND pid <> pg_backend_pid()`);
    expect(await asking).toSatisfy(isDatabaseAway);
    const { url, cut } = await cuttableWay();
    cut();
    expect(await failureOf(new pg.Client({ connectionString: url }).connect())).toSatisfy(isDatabaseAway);
  });

  it('that has no connection free in time is away', async () => {
    const pool = new pg.Pool({ connectionString: database.appUrl, max: 1, connectionTimeoutMillis: 50 });
    const held = await pool.connect();
    expect(await failureOf(pool.query('SELECT 1'))).toSatisfy(isDatabaseAway);
    held.release();
    await pool.end();
  });

  it('takes nobody with it whose transaction rests between two statements', async () => {
    const { url, cut } = await cuttableWay();
    const { pool, close } = await composeApp({
      databaseUrl: url,
      siteId: 'alder-point',
      https: false,
      boardFolder: null,
      build: 'test',
      fastify: { logger: false },
    });
    const client = await pool.connect();
    await client.query('BEGIN');
    const ended = new Promise((resolve) => client.once('end', resolve));
    // a failure that nobody hears of would end this process
    cut();
    await ended;
    expect(await failureOf(client.query('SELECT 1'))).toSatisfy(isDatabaseAway);
    client.release(true);
    await close();
  });

  it('is not what a faulty statement says', async () => {
    const client = await connected(database.appUrl);
    expect(isDatabaseAway(await failureOf(client.query('SELECT FROM nowhere')))).toBe(false);
  });
});
