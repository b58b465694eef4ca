import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import type { BoardDelta, BoardSnapshot } from '@slackwater/contract';
import { type BoardRow, HOUR_MS } from '@slackwater/domain';
import type pg from 'pg';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type FreshDatabase, freshDatabase } from '../support/database.ts';
import { close, exchange, inBed, mustAppend, pool, type TestWard, testWard } from './record-ward.ts';

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
