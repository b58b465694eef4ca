import { HOUR_MS, MINUTE_MS } from '@slackwater/domain';
import pg from 'pg';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { READ_BOARD, READ_CHANGED } from '../../apps/api/src/live/board.sql.ts';
import { type FreshDatabase, freshDatabase } from '../support/database.ts';
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
/** Entries of one patient in one day of four exchanges: about 40. */
const ENTRIES_A_DAY = 40;

/** Gives every patient as many days of history as asked, straight into the tables. */
async function history(beds: readonly Prescribed[], days: number): Promise<void> {
  for (const { patientId } of beds) {
    await superuser.query(
      `WITH old AS (SELECT version, version + $3::int AS next FROM bedside WHERE patient_id = $2),
      counter AS (
        UPDATE ward_counter SET position = position + $3 WHERE ward_id = $4 RETURNING position - $3 AS before
      ),
      entries AS (
        INSERT INTO entry (site_id, id, ward_id, position, patient_id, sequence, kind, format, happened_at, received_at,
          content_digest, digest)
        SELECT $1, gen_random_uuid(), $4, counter.before + n, $2, old.version + n, 'told', 1,
          now() - interval '1 year', now(), sha256(n::text::bytea), sha256(n::text::bytea)
        FROM old, counter, generate_series(1, $3) AS n RETURNING id
      ),
      payloads AS (
        INSERT INTO entry_payload (site_id, entry_id, salt, bytes)
        SELECT $1, id, decode(repeat('00', 16), 'hex'), '{}' FROM entries
      )
      UPDATE bedside SET version = old.next FROM old WHERE patient_id = $2`,
      [SITE, patientId, days * ENTRIES_A_DAY, WARD],
    );
  }
  await superuser.query('VACUUM (ANALYZE, FREEZE) entry, entry_payload, bedside, ward_counter, observation');
}

/**
 * Buffers of tables and indexes that something touched, as the server itself counts them: what EXPLAIN (BUFFERS) shows,
 * with the foreign keys' look-ups and the parts of a statement that EXPLAIN leaves out of its top line.
 */
async function buffersOf(use: () => Promise<unknown>): Promise<number> {
  const before = await touched();
  await use();
  return (await touched()) - before;
}

async function touched(): Promise<number> {
  // The pool has one connection: what it did is told now, not some time later.
  await db.query('SELECT pg_stat_force_next_flush()');
  const { rows } = await superuser.query<{ blocks: number }>(
    `SELECT sum(coalesce(heap_blks_hit, 0) + coalesce(heap_blks_read, 0) + coalesce(idx_blks_hit, 0)
      + coalesce(idx_blks_read, 0) + coalesce(toast_blks_hit, 0) + coalesce(toast_blks_read, 0)
      + coalesce(tidx_blks_hit, 0) + coalesce(tidx_blks_read, 0))::int AS blocks FROM pg_statio_user_tables`,
  );
  return rows[0]!.blocks;
}

async function measured(beds: readonly Prescribed[]) {
  const [{ patientId }] = beds as [Prescribed];
  const weigh = () =>
    mustAppend(ward, ward.actors.nurse, [
      draft('weight', { weightKg: 70, cavity: 'full' }, { patientId, happenedAt: Date.now() - MINUTE_MS }),
    ]);
  // Once before: the first plans, and fills the caches of the catalogs.
  await weigh();
  const entry: number[] = [];
  for (let round = 0; round < 9; round += 1) {
    entry.push(
      await buffersOf(async () => {
        const { position } = await weigh();
        // Its way to the boards.
        await db.query({ ...READ_CHANGED, values: [SITE, WARD, position - 1] });
      }),
    );
  }
  const board = await buffersOf(() => db.query({ ...READ_BOARD, values: [SITE, WARD] }));
  // A page that fills up now and then is not of the history: the middle one counts.
  return { entry: entry.toSorted((a, b) => a - b)[4]!, board };
}

test('board and entry touch as many buffers with a year of history as with a day', { timeout: 180_000 }, async () => {
  const beds: Prescribed[] = [];
  for (let bed = 1; bed <= BEDS; bed += 1) beds.push(await inBed(ward, String(bed), Date.now() - HOUR_MS));
  for (const { patientId } of beds) {
    await mustAppend(ward, ward.actors.nurse, [
      draft('weight', { weightKg: 70, cavity: 'full' }, { patientId, happenedAt: Date.now() - 2 * MINUTE_MS }),
    ]);
  }
  await history(beds, 1);
  const day = await measured(beds);
  await history(beds, 364);
  const year = await measured(beds);
  for (const what of ['board', 'entry'] as const) {
    expect(year[what] / day[what], `${what}: ${day[what]} → ${year[what]}`).toBeLessThanOrEqual(1.1);
  }
});
