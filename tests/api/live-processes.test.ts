import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import type { BoardDelta, BoardSnapshot } from '@slackwater/contract';
import { type BoardRow, HOUR_MS, MINUTE_MS } from '@slackwater/domain';
import type pg from 'pg';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { sweep } from '../../apps/api/src/alarms/sweep.ts';
import { createPolicies } from '../../apps/api/src/record/policies.ts';
import { type FreshDatabase, freshDatabase } from '../support/database.ts';
import { close, draft, exchange, inBed, mustAppend, pool, SITE, type TestWard, testWard, WARD } from './record-ward.ts';

let database: FreshDatabase;
let db: pg.Pool;
let ward: TestWard;
const started: ChildProcess[] = [];
beforeAll(async () => {
  database = await freshDatabase();
  db = pool(database.appUrl);
  ward = await testWard(db);
});
afterAll(async () => {
  for (const child of started) {
    child.kill('SIGTERM');
    if (child.exitCode === null) await once(child, 'exit');
  }
  await close(db);
  await database.drop();
});

/** A board at a server process of its own: what it shows is the snapshot with every delta that fits laid on. */
function board() {
  const child = spawn(process.execPath, [join(import.meta.dirname, 'processes/board.ts'), database.appUrl], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  started.push(child);
  let position = -1;
  const rows = new Map<string, BoardRow>();
  const waiting: BoardDelta[] = [];
  const lay = (delta: BoardDelta) => {
    if (delta.from !== position) return;
    for (const row of delta.rows) rows.set(row.patient.id, row);
    position = delta.to;
  };
  let text = '';
  child.stdout!.setEncoding('utf8').on('data', (chunk: string) => {
    text += chunk;
    const events = text.split('\n\n');
    text = events.pop()!;
    for (const event of events) {
      const data = JSON.parse(/^data: (.*)$/m.exec(event)![1]!);
      if (event.includes('event: snapshot')) {
        const snapshot = data as BoardSnapshot;
        position = snapshot.position;
        for (const row of snapshot.rows) rows.set(row.patient.id, row);
        for (const delta of waiting) lay(delta);
      } else if (event.includes('event: rows')) {
        if (position === -1) waiting.push(data);
        else lay(data);
      }
    }
  });
  return { rows, position: () => position };
}

async function until(holds: () => boolean): Promise<void> {
  while (!holds()) await setTimeout(10);
}

test('two server processes keep each other’s boards fresh', { timeout: 60_000 }, async () => {
  const [one, two] = [board(), board()];
  await until(() => one.position() >= 0 && two.position() >= 0);
  const beds = await Promise.all(['1', '2', '3'].map((bed) => inBed(ward, bed, Date.now() - 6 * HOUR_MS)));
  let last = 0;
  for (const bed of beds) {
    const { position } = await mustAppend(ward, ward.actors.nurse, exchange(bed, Date.now() - HOUR_MS, null));
    last = position;
  }
  await until(() => one.position() === last && two.position() === last);
  expect([...one.rows.keys()].toSorted()).toEqual(beds.map(({ patientId }) => patientId).toSorted());
  for (const row of one.rows.values()) expect(row.lastDwell?.drainMinusFillMl).toBe(350);
  expect(new Map([...two.rows].toSorted())).toEqual(new Map([...one.rows].toSorted()));
});

test('new settings show on the boards of every process, with nobody writing for a patient', async () => {
  const [one, two] = [board(), board()];
  await until(() => one.position() >= 0 && two.position() >= 0);
  const { patientId } = await inBed(ward, '9', Date.now() - 3 * HOUR_MS);
  const { rows } = await db.query('SELECT settings_version AS v FROM ward WHERE id = $1', [WARD]);
  const changes = { overdueMostMinutes: 12, residualMl: 650 };
  const { position } = await mustAppend(ward, ward.actors.manager, [
    draft('settingsChanged', { version: rows[0].v + 1, changes }, { patientId: null, happenedAt: Date.now() }),
  ]);
  await until(() => one.position() === position && two.position() === position);
  const row = one.rows.get(patientId)!;
  // A dwell of 4 h is overdue after 10 % of it, 24 min; now 12 min at most (the ward's own setting).
  expect(row.due!.overdueAt - row.due!.dueAt).toBe(12 * MINUTE_MS);
  expect(two.rows.get(patientId)).toEqual(row);
  const stored = await db.query('SELECT state, version FROM bedside WHERE patient_id = $1', [patientId]);
  expect(stored.rows[0].state.due.overdueAt - stored.rows[0].state.due.dueAt).toBe(24 * MINUTE_MS);
  const policies = createPolicies();
  while ((await sweep(db, policies, SITE)).taken > 0);
  const swept = await db.query('SELECT state FROM bedside WHERE patient_id = $1', [patientId]);
  expect(swept.rows[0].state.due).toMatchObject({ dueAt: row.due!.dueAt, overdueAt: row.due!.overdueAt });
});
