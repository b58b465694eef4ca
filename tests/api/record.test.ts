import { HOUR_MS, MINUTE_MS } from '@slackwater/domain';
import type pg from 'pg';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type FreshDatabase, freshDatabase } from '../support/database.ts';
import { draft, exchange, inBed, mustAppend, mustFail, pool, type TestWard, testWard, WARD } from './record-ward.ts';

let database: FreshDatabase;
let db: pg.Pool;
let ward: TestWard;
beforeAll(async () => {
  database = await freshDatabase();
  db = pool(database.appUrl);
  ward = await testWard(db);
});
afterAll(async () => {
  await db.end();
  await database.drop();
});

const HOURS_AGO = (hours: number) => Date.now() - hours * HOUR_MS;

test('an exchange goes in whole and comes out as the state of the bed', async () => {
  const bed = await inBed(ward, '1', HOURS_AGO(6));
  const drafts = exchange(bed, HOURS_AGO(1), null);
  const { receipts, bedside, position } = await mustAppend(ward, ward.actors.nurse, drafts);
  expect(receipts.map(({ id }) => id)).toEqual(drafts.map(({ id }) => id));
  expect(position).toBeGreaterThanOrEqual(receipts.at(-1)!.position);
  expect(bedside?.head).toBe(drafts.at(-1)!.id);
  expect(bedside?.visit).toBeNull();
  // 2,350 mL out of 2,000 mL in: by hand.
  expect(bedside?.lastDwells[0]?.drainMinusFillMl).toBe(350);
});
