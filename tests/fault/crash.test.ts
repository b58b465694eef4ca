// Nothing that was acknowledged may be lost: a real server and its real Postgres (fsync on) are killed while nurses
// record without pause, and what the clients were told is compared with what stands there after the next start.
import { randomUUID } from 'node:crypto';
import { readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { startCluster } from '@slackwater/tools/cluster';
import pg from 'pg';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { runToEnd, type ServerProcess, startServer } from '../support/server-process.ts';
import { admitAndRecord, openWard, type Recorder } from './recorder.ts';

const data = join(tmpdir(), `slackwater-crash-${randomUUID()}`);
const settings = {
  SLACKWATER_DATA: data,
  SLACKWATER_DEMO: '0',
  SLACKWATER_ADMIN: 'administrator:a password for tests',
};
const BEDS = ['1', '2', '3', '4'];

let server: ServerProcess;
let recorders: Recorder[];

beforeAll(async () => {
  server = await startServer(settings);
  const cookie = await openWard(server.url, BEDS);
  recorders = await Promise.all(BEDS.map((bed) => admitAndRecord(server.url, cookie, bed)));
});

afterAll(async () => {
  await server.end('SIGKILL');
  await (await startCluster(data)).stop();
  await rm(data, { recursive: true, force: true });
});

/** All record at once; in the middle of it the deed is done, and each goes on until nobody answers any more. */
async function recordUntil(deed: () => void) {
  let acknowledged = 0;
  const enough = Promise.withResolvers<void>();
  const working = recorders.map((recorder) =>
    recorder.workAt(server.url, () => {
      acknowledged += 1;
      if (acknowledged === 60) enough.resolve();
    }),
  );
  await enough.promise;
  deed();
  await Promise.all(working);
}

/** What each client was told stands there, told again in the same words; what it does not know about is written once. */
async function expectNothingLost() {
  for (const recorder of recorders) {
    const told = recorder.acknowledged();
    const stored = await recorder.storedAt(server.url);
    expect(told.filter(({ id }) => !stored.has(id))).toEqual([]);
    for (const receipt of told.slice(-5)) expect(await recorder.sendAgain(server.url, receipt.id)).toEqual(receipt);
    const unanswered = recorder.unanswered();
    expect(unanswered).not.toBeNull();
    const first = await recorder.sendAgain(server.url, unanswered!.id);
    expect(await recorder.sendAgain(server.url, unanswered!.id)).toEqual(first);
  }
  await expectGapless();
  const verified = await runToEnd('apps/api/src/commands/verify.ts', [], settings);
  expect(verified.code, verified.said).toBe(0);
}

/** Gapless, and nothing twice: asked of the tables themselves. */
async function expectGapless() {
  const cluster = await startCluster(data);
  const client = new pg.Client({ connectionString: cluster.url('slackwater'), application_name: 'crash-test' });
  await client.connect();
  try {
    const { rows } = await client.query(
      `SELECT count(*)::int AS entries, count(DISTINCT position)::int AS positions, max(position)::int AS last,
         (SELECT position::int FROM ward_counter WHERE ward_id = 'kestrel') AS counter,
         current_setting('fsync') || current_setting('synchronous_commit') AS safe
       FROM entry WHERE ward_id = 'kestrel'`,
    );
    const [{ entries, ...rest }] = rows;
    expect(rest).toEqual({ positions: entries, last: entries, counter: entries, safe: 'onon' });
  } finally {
    await client.end();
  }
}

test('a kill of the server in the middle of recording loses nothing that was acknowledged', async () => {
  await recordUntil(() => server.child.kill('SIGKILL'));
  server = await startServer(settings);
  await expectNothingLost();
}, 120_000);

test('a kill of the postmaster, and then of the server, loses nothing that was acknowledged', async () => {
  const postmaster = Number((await readFile(join(data, 'pg/postmaster.pid'), 'utf8')).split('\n')[0]);
  await recordUntil(() => process.kill(postmaster, 'SIGKILL'));
  await server.end('SIGKILL');
  server = await startServer(settings);
  const log = await readFile(join(data, 'pg/server.log'), 'utf8');
  expect(log).toMatch(/was not properly shut down; automatic recovery in progress/);
  await expectNothingLost();
}, 120_000);
