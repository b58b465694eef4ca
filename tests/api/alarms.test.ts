import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { conditionsAt, HOUR_MS, MINUTE_MS } from '@slackwater/domain';
import type pg from 'pg';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { createAlarms } from '../../apps/api/src/alarms/alarms.ts';
import { sweep } from '../../apps/api/src/alarms/sweep.ts';
import { createPolicies } from '../../apps/api/src/record/policies.ts';
import { verify } from '../../apps/api/src/record/verify.ts';
import { type FreshDatabase, freshDatabase } from '../support/database.ts';
import {
  admitted,
  close,
  draft,
  exchange,
  mustAppend,
  OTHER_WARD,
  patient,
  pool,
  prescribed,
  SITE,
  type TestWard,
  testWard,
  WARD,
} from './record-ward.ts';

let database: FreshDatabase;
let db: pg.Pool;
let ward: TestWard;
const policies = createPolicies();
beforeAll(async () => {
  database = await freshDatabase();
  db = pool(database.appUrl, 8);
  ward = await testWard(db);
});
afterAll(async () => {
  await close(db);
  await database.drop();
});

async function until(holds: () => boolean | Promise<boolean>): Promise<void> {
  while (!(await holds())) await setTimeout(20);
}

/**
 * A patient whose drain becomes overdue in `dueInMs`: the ward's margin for a dwell of 4 h is 24 min (10 %, 10 to 60
 * min: common practice), so the fill ended 4 h 24 min before that.
 */
async function overdueIn(bed: string, dueInMs: number, wardId = WARD): Promise<string> {
  const patientId = await patient(db);
  const overdueAt = Date.now() + dueInMs;
  const fillEndedAt = overdueAt - 4 * HOUR_MS - 24 * MINUTE_MS;
  await mustAppend(ward, ward.actors.charge, [admitted(patientId, bed, fillEndedAt, fillEndedAt)], wardId);
  const revision = prescribed(patientId, fillEndedAt);
  await mustAppend(ward, ward.actors.physician, [revision], wardId);
  return patientId;
}

/** The same, just past its instant, with nobody watching meanwhile. */
async function justOverdue(bed: string): Promise<string> {
  const patientId = await overdueIn(bed, 250);
  await setTimeout(350);
  return patientId;
}

type Alert = { patient_id: string; kind: string; raised_ms: number };
const alertsOf = async (patientIds: readonly string[]) =>
  (
    await db.query<Alert>(
      `SELECT patient_id, kind, (extract(epoch FROM raised_at) * 1000)::float8 AS raised_ms FROM alert
      WHERE patient_id = ANY($1) AND kind IN ('drainOverdue', 'fillOverdue')`,
      [patientIds],
    )
  ).rows;
const raisedEntries = async (patientIds: readonly string[]) =>
  (
    await db.query<{ n: number }>(
      `SELECT count(*)::int AS n FROM entry JOIN entry_payload ON entry_id = id WHERE patient_id = ANY($1)
        AND kind = 'alertRaised' AND convert_from(bytes, 'UTF8') ~ '"(drain|fill)Overdue"'`,
      [patientIds],
    )
  ).rows[0]!.n;

describe('a drain becomes overdue with nobody pressing anything', () => {
  test('at its instant, once, in the record, and not before', async () => {
    const patientId = await overdueIn('1', 1_500);
    expect(await raisedEntries([patientId])).toBe(0);
    const alarms = createAlarms({ siteId: SITE, pool: db, policies, onTrouble: (error) => expect.fail(error.message) });
    alarms.start();
    await until(async () => (await raisedEntries([patientId])) > 0);
    await alarms.stop();
    const [alert, ...others] = await alertsOf([patientId]);
    expect(others).toEqual([]);
    const { rows } = await db.query('SELECT state, next_change_at FROM bedside WHERE patient_id = $1', [patientId]);
    const { state } = rows[0];
    expect(alert!.raised_ms).toBeGreaterThanOrEqual(state.due.overdueAt);
    expect(state.alerts).toHaveLength(1);
    expect(rows[0].next_change_at.getTime()).toBeGreaterThan(alert!.raised_ms);
    expect(alarms.through()).toBeGreaterThanOrEqual(state.due.overdueAt);
  });

  test('and the exchange that is made clears it', async () => {
    const patientId = await justOverdue('2');
    await sweep(db, policies, SITE);
    expect(await raisedEntries([patientId])).toBe(1);
    const { rows } = await db.query('SELECT id FROM prescription_revision WHERE patient_id = $1', [patientId]);
    const start = exchange({ patientId, revisionId: rows[0].id }, Date.now() - 31 * MINUTE_MS, null);
    const { bedside } = await mustAppend(ward, ward.actors.nurse, start);
    expect(bedside?.alerts).toEqual([]);
    const alerts = await db.query("SELECT cleared_by FROM alert WHERE patient_id = $1 AND kind = 'drainOverdue'", [
      patientId,
    ]);
    expect(alerts.rows).toEqual([{ cleared_by: 'condition' }]);
  });
});

test('an alert that nobody has goes up a step when its time comes, once', async () => {
  const patientId = await justOverdue('3');
  await sweep(db, policies, SITE);
  const { rows } = await db.query('SELECT next_change_at FROM bedside WHERE patient_id = $1', [patientId]);
  expect(rows[0].next_change_at).not.toBeNull();
  const taken = await sweep(db, policies, SITE);
  expect(taken).toEqual({ taken: 0, failed: [] });
});

test('a bedside that cannot be decided about holds nobody up, is told, and is tried again', async () => {
  const broken = await justOverdue('5');
  const whole = await justOverdue('6');
  await db.query(`UPDATE bedside SET state = '{"broken": true}' WHERE patient_id = $1`, [broken]);
  const { failed } = await sweep(db, policies, SITE);
  expect(failed.map(({ patientId }) => patientId)).toEqual([broken]);
  expect(await raisedEntries([whole])).toBe(1);
  const { rows } = await db.query('SELECT next_change_at > now() AS later FROM bedside WHERE patient_id = $1', [
    broken,
  ]);
  expect(rows).toEqual([{ later: true }]);
  await db.query('UPDATE bedside SET fold_version = 0, next_change_at = now() WHERE patient_id = $1', [broken]);
  expect((await sweep(db, policies, SITE)).failed).toEqual([]);
  expect(await raisedEntries([broken])).toBe(1);
});

test('while a bedside cannot be decided about, nobody is told that all was dealt with', async () => {
  const broken = await justOverdue('4');
  const { rows } = await db.query(
    `UPDATE bedside SET state = '{"broken": true}' WHERE patient_id = $1
    RETURNING (extract(epoch FROM clock_timestamp()) * 1000)::float8 AS now`,
    [broken],
  );
  const troubles: Error[] = [];
  const alarms = createAlarms({ siteId: SITE, pool: db, policies, onTrouble: (error) => troubles.push(error) });
  alarms.start();
  await until(() => troubles.length > 0);
  alarms.wake();
  await setTimeout(1_000);
  await alarms.stop();
  expect(troubles).toHaveLength(1);
  expect(alarms.through()).toBeLessThan(rows[0].now + 1_000);
  await db.query('UPDATE bedside SET fold_version = 0, next_change_at = now() WHERE patient_id = $1', [broken]);
  await sweep(db, policies, SITE);
});

test('three processes, one of them killed: each alarm exactly once', { timeout: 60_000 }, async () => {
  const patients: string[] = [];
  for (let bed = 7; bed <= 36; bed += 1) {
    patients.push(await overdueIn(String(bed), 4_000 + (bed % 5) * 300, bed % 2 === 0 ? WARD : OTHER_WARD));
  }
  expect(await raisedEntries(patients)).toBe(0);
  const watchers = await Promise.all([1, 2, 3].map(() => watcher()));
  await until(async () => (await raisedEntries(patients)) > 0);
  watchers[0]!.kill('SIGKILL');
  await until(async () => (await alertsOf(patients)).length === patients.length);
  // Long enough for a second one, if somebody wrote twice.
  await setTimeout(500);
  const alerts = await alertsOf(patients);
  expect(alerts.map(({ patient_id }) => patient_id).toSorted()).toEqual(patients.toSorted());
  expect(await raisedEntries(patients)).toBe(patients.length);
  for (const each of watchers.slice(1)) await stopped(each);
  expect((await verify(db, SITE)).faults).toEqual([]);
  const { rows } = await db.query('SELECT state FROM bedside WHERE patient_id = ANY($1)', [patients]);
  for (const { state } of rows) expect(conditionsAt(state, state.due.overdueAt, await policyOf())).toHaveLength(1);
});

test('a process killed between taking and writing loses no alarm: another raises it, once', async () => {
  const patientId = await justOverdue('37');
  const blocker = await db.connect();
  await blocker.query('BEGIN');
  await blocker.query('SELECT FROM ward_counter WHERE ward_id = $1 FOR UPDATE', [WARD]);
  const killed = await watcher();
  await until(async () => {
    const { rowCount } = await db.query(
      "SELECT FROM pg_stat_activity WHERE datname = current_database() AND wait_event_type = 'Lock'",
    );
    return rowCount === 1;
  });
  killed.kill('SIGKILL');
  await once(killed, 'exit');
  await blocker.query('ROLLBACK');
  blocker.release();
  const next = await watcher();
  await until(async () => (await raisedEntries([patientId])) > 0);
  await stopped(next);
  expect(await raisedEntries([patientId])).toBe(1);
  expect((await verify(db, SITE)).faults).toEqual([]);
});

test('new settings move the alarms of what is inside already', async () => {
  const patientId = await overdueIn('40', 5 * MINUTE_MS);
  await sweep(db, policies, SITE);
  expect(await raisedEntries([patientId])).toBe(0);
  const { rows } = await db.query('SELECT settings_version AS v FROM ward WHERE id = $1', [WARD]);
  // Overdue at most 15 min after the due time instead of 24: that is 4 min ago.
  await mustAppend(ward, ward.actors.manager, [
    draft(
      'settingsChanged',
      { version: rows[0].v + 1, changes: { overdueMostMinutes: 15 } },
      { patientId: null, happenedAt: Date.now() },
    ),
  ]);
  // The whole ward is folded anew, some bedsides a sweep.
  while ((await sweep(db, policies, SITE)).taken > 0);
  expect(await raisedEntries([patientId])).toBe(1);
});

async function watcher(): Promise<ChildProcess> {
  const child = spawn(process.execPath, [join(import.meta.dirname, 'processes/watcher.ts'), database.appUrl], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  await once(child.stdout!, 'data');
  return child;
}

async function stopped(child: ChildProcess): Promise<void> {
  child.kill('SIGTERM');
  await once(child, 'exit');
}

async function policyOf() {
  const { rows } = await db.query('SELECT settings_version AS v FROM ward WHERE id = $1', [WARD]);
  return policies.of(db, SITE, WARD, { settingsVersion: rows[0].v, formularyVersion: 1 });
}
