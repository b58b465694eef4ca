// Faults at random, by a seed: nurses record without pause through a network of our own, boards follow, drains fall
// overdue, and one thing after another breaks. What the clients saw is then held against what stands in the record.
// `npm run test:fault` does it a thousand times; here it is a few, each kind of fault once at least.
import { randomUUID } from 'node:crypto';
import { rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { type Chance, chance } from '@slackwater/api/demo/chance';
import type { BoardSnapshot } from '@slackwater/contract';
import { startCluster } from '@slackwater/tools/cluster';
import { freePort } from '@slackwater/tools/ports';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { startServer } from '../support/server-process.ts';
import { asSuperuser, expectNothingLost, expectWholeRecord } from './invariants.ts';
import { admitAndRecord, openWard, type Recorder, type Signed } from './recorder.ts';
import { admitNearlyOverdue } from './storm/due-patient.ts';
import { FAULTS, type Fault, FROZEN_FOR_A_MINUTE, pick, type Target } from './storm/faults.ts';
import { openNetwork } from './storm/network.ts';
import { type Watcher, watchBoard } from './storm/watcher.ts';

const MANY = Number(process.env.STORM_FAULTS ?? 0);
const SEED = Number(process.env.STORM_SEED ?? 20261125);
/** A run that must be over by some time strikes no more after so long, and is then looked at as any other. */
const MOST_MINUTES = Number(process.env.STORM_MINUTES ?? Number.POSITIVE_INFINITY);
/** An alarm falls due among so many faults. */
const ALARM_EVERY = Math.max(4, Math.ceil(MANY / 40));
/** After a fault, so many recordings must be acknowledged before the next: it went on. */
const GOES_ON = 4;
const GOES_ON_WITHIN_MS = 60_000;
const MINUTES_IN_A_LONG_RUN = 3;

const data = join(tmpdir(), `slackwater-storm-${randomUUID()}`);
const beds = Array.from({ length: 4 }, (_, index) => String(index + 1));
const alarmBeds = Array.from({ length: 60 }, (_, index) => `A${index + 1}`);

let settings: Record<string, string>;
let target: Target;
let people: { charge: Signed; physician: Signed };
let recorders: Recorder[];
let watchers: Watcher[];
let acknowledged = 0;
/** What a recorder was answered that no fault may bring about. */
const failed: Error[] = [];

beforeAll(async () => {
  settings = {
    PORT: String(await freePort()),
    SLACKWATER_DATA: data,
    SLACKWATER_DEMO: '0',
    SLACKWATER_ADMIN: 'administrator:a password for tests',
    LOG_LEVEL: 'silent',
  };
  const restart = () => startServer(settings);
  const server = await restart();
  people = await openWard(server.url, [...beds, ...alarmBeds]);
  recorders = await Promise.all(beds.map((bed) => admitAndRecord(server.url, people.charge, bed)));
  target = { data, chance: chance(SEED), network: await openNetwork(server.port), server, restart };
  watchers = [1, 2].map(() => watchBoard(target.network.url, people.charge));
}, 120_000);

afterAll(async () => {
  target.network.close();
  await target.server.end('SIGKILL');
  await (await startCluster(data)).stop();
  await rm(data, { recursive: true, force: true });
});

/** Records through the network until told to stop, sending again whatever got no answer. */
function recordUntilStopped() {
  let stopped = false;
  const working = recorders.map(async (recorder) => {
    while (!stopped) {
      await recorder.workAt(target.network.url, () => {
        acknowledged += 1;
        return !stopped;
      });
      await setTimeout(20);
    }
  });
  for (const one of working) one.catch((error) => failed.push(error));
  return async () => {
    stopped = true;
    await Promise.all(working);
  };
}

async function goesOn(after: string): Promise<void> {
  const wanted = acknowledged + GOES_ON;
  const until = Date.now() + GOES_ON_WITHIN_MS;
  while (acknowledged < wanted) {
    if (failed.length > 0) throw new Error(`After: ${after}. ${failed[0]?.message}`, { cause: failed[0] });
    if (Date.now() > until) throw new Error(`Nothing was recorded any more after: ${after}.`);
    await setTimeout(10);
  }
}

test('nothing acknowledged is lost or doubled, no alarm missed, every board ends where the record stands', {
  timeout: 120_000 + MANY * 10_000,
}, async () => {
  const storm = stormOf(target.chance);
  const struck = new Map<string, number>();
  const begun = performance.now();
  const overdue: string[] = [];
  const stop = recordUntilStopped();
  await goesOn('the start');
  for (const [index, fault] of storm.entries()) {
    if (performance.now() - begun > MOST_MINUTES * 60_000) break;
    if (index % ALARM_EVERY === 0) {
      overdue.push(await admitNearlyOverdue(target.server.url, people.charge, people.physician, alarmBeds.shift()!));
    }
    await fault.strike(target);
    await goesOn(fault.name);
    struck.set(fault.name, (struck.get(fault.name) ?? 0) + 1);
    if (MANY > 0 && index % 50 === 49) console.log(`${index + 1} faults, ${acknowledged} recordings acknowledged`);
  }
  await stop();

  const { url } = target.server;
  await expectNothingLost(recorders, url);
  await expectWholeRecord(data, settings);
  await expectEachAlarmOnce(overdue);
  for (const watcher of watchers) {
    await expect
      .poll(async () => watcher.board()?.position === (await snapshot(url)).position, { timeout: 20_000 })
      .toBe(true);
    const { position, rows } = await snapshot(url);
    expect(watcher.board()?.position).toBe(position);
    expect([...watcher.board()!.rows.values()].toSorted(byBed)).toEqual(rows.toSorted(byBed));
    expect(watcher.disorder()).toEqual([]);
    await watcher.stop();
  }
  if (MANY > 0) {
    const minutes = ((performance.now() - begun) / 60_000).toFixed(1);
    const faults = [...struck.values()].reduce((sum, times) => sum + times, 0);
    const opened = watchers.map((watcher) => watcher.opened()).join(' and ');
    console.log(
      `Seed ${SEED}: ${faults} faults in ${minutes} min; ${acknowledged} recordings acknowledged, ` +
        `${overdue.length} alarms, streams opened ${opened} times.`,
    );
    for (const [name, times] of struck) console.log(`  ${name}: ${times}`);
  }
});

/** Each kind once, and then as many more as asked, by chance; among many, some that last a minute, evenly spread. */
function stormOf(dice: Chance): Fault[] {
  const storm = [...FAULTS, ...Array.from({ length: MANY - FAULTS.length }, () => pick(dice))];
  if (MANY >= MINUTES_IN_A_LONG_RUN)
    for (let minute = 0; minute < MINUTES_IN_A_LONG_RUN; minute += 1)
      storm[Math.floor(((minute + 0.5) * storm.length) / MINUTES_IN_A_LONG_RUN)] = FROZEN_FOR_A_MINUTE;
  return storm;
}

async function snapshot(url: string): Promise<BoardSnapshot> {
  const answer = await fetch(`${url}/api/wards/kestrel/board`, { headers: { cookie: people.charge } });
  return (await answer.json()) as BoardSnapshot;
}

const byBed = (a: { bed: string }, b: { bed: string }) => (a.bed < b.bed ? -1 : 1);

async function expectEachAlarmOnce(overdue: readonly string[]): Promise<void> {
  const raised = () =>
    asSuperuser(data, async (client) => {
      const { rows } = await client.query<{ patientId: string; times: number }>(
        `SELECT patient_id AS "patientId", count(*)::int AS times FROM alert
         WHERE kind = 'drainOverdue' AND patient_id = ANY($1) GROUP BY patient_id, cause, rank`,
        [overdue],
      );
      return rows;
    });
  await expect
    .poll(async () => new Set((await raised()).map(({ patientId }) => patientId)).size, { timeout: 20_000 })
    .toBe(overdue.length);
  expect((await raised()).filter(({ times }) => times !== 1)).toEqual([]);
}
