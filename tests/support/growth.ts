import type pg from 'pg';

/** Entries of one patient in one day of four exchanges: about 40. */
const ENTRIES_A_DAY = 40;

export type Bed = { siteId: string; wardId: string; patientId: string };

/** Gives a patient as many days of history as asked, straight into the tables. */
async function giveHistory(superuser: pg.Client, { siteId, wardId, patientId }: Bed, days: number): Promise<void> {
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
    [siteId, patientId, days * ENTRIES_A_DAY, wardId],
  );
}

/** Gives every patient as many days of history, and puts the tables in the order that autovacuum keeps them in. */
export async function grow(superuser: pg.Client, beds: readonly Bed[], days: number): Promise<void> {
  for (const bed of beds) await giveHistory(superuser, bed, days);
  await superuser.query('VACUUM (ANALYZE, FREEZE) entry, entry_payload, bedside, ward_counter, observation');
  // all others too, now: else an analysis that comes by itself in between has the same query go another way
  await superuser.query('ANALYZE');
}

/**
 * Buffers of tables and indexes that something touched, as the server itself counts them: what EXPLAIN (BUFFERS) shows,
 * with the foreign keys' look-ups and the parts of a statement that EXPLAIN leaves out of its top line.
 * @param db has one connection, on which `use` works
 */
export async function buffersOf(superuser: pg.Client, db: pg.Pool, use: () => Promise<unknown>): Promise<number> {
  const before = await touched(superuser, db);
  await use();
  return (await touched(superuser, db)) - before;
}

async function touched(superuser: pg.Client, db: pg.Pool): Promise<number> {
  // The pool has one connection: what it did is told now, not some time later.
  await db.query('SELECT pg_stat_force_next_flush()');
  const { rows } = await superuser.query<{ blocks: number }>(
    `SELECT sum(coalesce(heap_blks_hit, 0) + coalesce(heap_blks_read, 0) + coalesce(idx_blks_hit, 0)
      + coalesce(idx_blks_read, 0) + coalesce(toast_blks_hit, 0) + coalesce(toast_blks_read, 0)
      + coalesce(tidx_blks_hit, 0) + coalesce(tidx_blks_read, 0))::int AS blocks FROM pg_statio_user_tables`,
  );
  return rows[0]!.blocks;
}
