// Nothing that was acknowledged may be lost: a real server and its real Postgres (fsync on) are killed while nurses
// record without pause, and what the clients were told is compared with what stands there after the next start.
import { randomUUID } from 'node:crypto';
import { readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { startCluster } from '@slackwater/tools/cluster';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type ServerProcess, startServer } from '../support/server-process.ts';
import { expectNothingLost, expectWholeRecord } from './invariants.ts';
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
  const { charge } = await openWard(server.url, BEDS);
  recorders = await Promise.all(BEDS.map((bed) => admitAndRecord(server.url, charge, bed)));
});

afterAll(async () => {
  await server.end('SIGKILL');
  await (await startCluster(data)).stop();
  await rm(data, { recursive: true, force: true });
});

/** A database that comes back may answer one of them at once: after so many more all stop. */
const AT_MOST_AFTERWARDS = 400;

/** All record at once; in the middle of it the deed is done, and each goes on until nobody answers any more. */
async function recordUntil(deed: () => void) {
  let acknowledged = 0;
  let atMost = Number.POSITIVE_INFINITY;
  const enough = Promise.withResolvers<void>();
  const working = recorders.map((recorder) =>
    recorder.workAt(server.url, () => {
      acknowledged += 1;
      if (acknowledged === 60) enough.resolve();
      return acknowledged < atMost;
    }),
  );
  await enough.promise;
  deed();
  atMost = acknowledged + AT_MOST_AFTERWARDS;
  await Promise.all(working);
}

const postmasterPid = async () => Number((await readFile(join(data, 'pg/postmaster.pid'), 'utf8')).split('\n')[0]);

/** As the tables stand after the next start: what somebody was told, what nobody was, and the whole. */
async function expectNothingWasLost() {
  expect(recorders.some((recorder) => recorder.unanswered() !== null)).toBe(true);
  await expectNothingLost(recorders, server.url);
  await expectWholeRecord(data, settings);
}

test('a kill of the server in the middle of recording loses nothing that was acknowledged', async () => {
  await recordUntil(() => server.child.kill('SIGKILL'));
  server = await startServer(settings);
  await expectNothingWasLost();
}, 120_000);

test('a kill of the postmaster alone: the server starts it again, and nothing that was acknowledged is lost', async () => {
  const killed = await postmasterPid();
  await recordUntil(() => process.kill(killed, 'SIGKILL'));
  const isBack = () =>
    recorders[0]!.storedAt(server.url).then(
      () => true,
      () => false,
    );
  await expect.poll(isBack, { timeout: 60_000 }).toBe(true);
  expect(await postmasterPid()).not.toBe(killed);
  await expectNothingWasLost();
}, 120_000);

test('a kill of the postmaster and of the server loses nothing that was acknowledged', async () => {
  const postmaster = await postmasterPid();
  await recordUntil(() => {
    process.kill(postmaster, 'SIGKILL');
    server.child.kill('SIGKILL');
  });
  await server.end('SIGKILL');
  server = await startServer(settings);
  const log = await readFile(join(data, 'pg/server.log'), 'utf8');
  expect(log).toMatch(/was not properly shut down; automatic recovery in progress/);
  await expectNothingWasLost();
}, 120_000);
