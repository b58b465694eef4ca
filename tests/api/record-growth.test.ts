import { HOUR_MS, MINUTE_MS } from '@slackwater/domain';
import pg from 'pg';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { READ_BOARD, READ_CHANGED } from '../../apps/api/src/live/board.sql.ts';
import { type FreshDatabase, freshDatabase } from '../support/database.ts';
import { buffersOf, grow } from '../support/growth.ts';
import {
  close,
  draft,
  inBed,
  mustAppend,
  type Prescribed,
  pool,
  SITE,
  type TestWard,
  testWard,
  WARD,
} from './record-ward.ts';

let database: FreshDatabase;
let db: pg.Pool;
let superuser: pg.Client;
let ward: TestWard;
beforeAll(async () => {
  database = await freshDatabase();
  db = pool(database.appUrl, 1);
  ward = await testWard(db);
  superuser = new pg.Client({ connectionString: database.superUrl });
  await superuser.connect();
});
afterAll(async () => {
  await superuser.end();
  await close(db);
  await database.drop();
});

const BEDS = 12;
const ENTRIES = 40;
/** What else passes over the tables meanwhile, an autovacuum say, is counted too: the least of some is the board's. */
const BOARDS = 5;

async function measured(beds: readonly Prescribed[]) {
  const [{ patientId }] = beds as [Prescribed];
  const weigh = () =>
    mustAppend(ward, ward.actors.nurse, [
      draft('weight', { weightKg: 70, cavity: 'full' }, { patientId, happenedAt: Date.now() - MINUTE_MS }),
    ]);
  // Where the rows' old versions lie is not of the history either: both begin from pages in the same order.
  await superuser.query('VACUUM (FULL, ANALYZE) bedside, ward_counter');
  // Once before: the first plans, and fills the caches of the catalogs.
  await weigh();
  const entry = await buffersOf(superuser, db, async () => {
    // So many that a page that fills up now and then weighs as much in both.
    for (let round = 0; round < ENTRIES; round += 1) {
      const { position } = await weigh();
      // Its way to the boards.
      await db.query({ ...READ_CHANGED, values: [SITE, WARD, position - 1] });
    }
  });
  const boards: number[] = [];
  for (let round = 0; round < BOARDS; round += 1)
    boards.push(await buffersOf(superuser, db, () => db.query({ ...READ_BOARD, values: [SITE, WARD] })));
  return { entry: entry / ENTRIES, board: Math.min(...boards) };
}

test('board and entry touch as many buffers with a year of history as with a day', { timeout: 180_000 }, async () => {
  const beds: Prescribed[] = [];
  for (let bed = 1; bed <= BEDS; bed += 1) beds.push(await inBed(ward, String(bed), Date.now() - HOUR_MS));
  for (const { patientId } of beds) {
    await mustAppend(ward, ward.actors.nurse, [
      draft('weight', { weightKg: 70, cavity: 'full' }, { patientId, happenedAt: Date.now() - 2 * MINUTE_MS }),
    ]);
  }
  const grown = beds.map(({ patientId }) => ({ siteId: SITE, wardId: WARD, patientId }));
  await grow(superuser, grown, 1);
  const day = await measured(beds);
  await grow(superuser, grown, 364);
  const year = await measured(beds);
  for (const what of ['board', 'entry'] as const) {
    expect(year[what] / day[what], `${what}: ${day[what]} → ${year[what]}`).toBeLessThanOrEqual(1.1);
  }
});
