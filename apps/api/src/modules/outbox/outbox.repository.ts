import type { KeptBatch, KeptProblem, OutboxBatch } from '@slackwater/contract';
import type { Pool } from 'pg';
import { uuidOfContent } from '../../record/entry-id.ts';
import { epochMs, iso } from '../../record/instants.ts';

/** Whose batches: one's own, or all of a ward that one may release. */
export type Whose = { authorId: string } | { wardId: string };

const KEEP = {
  name: 'kept-keep',
  text: `
    INSERT INTO kept_batch (site_id, id, ward_id, patient_id, author_id, device_hash, device_at, kept_at, entries, problem)
    VALUES ($1, $2, $3, $4, $5, $6, $7, now(), $8, $9) ON CONFLICT DO NOTHING`,
};

export type ToKeep = {
  siteId: string;
  authorId: string;
  deviceHash: Buffer | null;
  batch: OutboxBatch;
  problem: KeptProblem;
};

/** Keeps a refused batch; the same batch is kept once, also after it was decided about. @returns its id */
export async function keep(pool: Pool, { siteId, authorId, deviceHash, batch, problem }: ToKeep): Promise<string> {
  const { wardId, deviceAt, entries } = batch;
  const id = uuidOfContent(JSON.stringify([siteId, authorId, ...entries.map((entry) => entry.id)]));
  const about = [wardId, entries[0]?.patientId ?? null, authorId, deviceHash, iso(deviceAt)];
  await pool.query({ ...KEEP, values: [siteId, id, ...about, JSON.stringify(entries), JSON.stringify(problem)] });
  return id;
}

/** $1 site, $2 author or null, $3 ward or null, $4 ids or null for all */
const OPEN = {
  name: 'kept-open',
  text: `
    SELECT k.id, k.ward_id AS "wardId", k.patient_id AS "patientId", ${epochMs('k.device_at')} AS "deviceAt",
      ${epochMs('k.kept_at')} AS "keptAt", k.entries, k.problem,
      json_build_object('id', a.id, 'name', a.name) AS author,
      CASE WHEN p.id IS NULL THEN NULL ELSE json_build_object('id', p.id, 'family', p.family, 'given', p.given,
        'dateOfBirth', to_char(p.date_of_birth, 'YYYY-MM-DD'), 'gender', p.gender,
        'hospitalNumber', p.hospital_number, 'allergy', p.allergy, 'isolation', p.isolation, 'cautions', p.cautions)
      END AS patient, b.ward_id AS "patientWardId"
    FROM kept_batch k
    JOIN account a ON a.site_id = k.site_id AND a.id = k.author_id
    LEFT JOIN patient p ON p.site_id = k.site_id AND p.id = k.patient_id
    LEFT JOIN bedside b ON b.site_id = k.site_id AND b.patient_id = k.patient_id
    WHERE k.site_id = $1 AND ($2::uuid IS NULL OR k.author_id = $2) AND ($3::text IS NULL OR k.ward_id = $3)
      AND ($4::uuid[] IS NULL OR k.id = ANY($4))
      AND NOT EXISTS (SELECT FROM kept_batch_end e WHERE e.site_id = k.site_id AND e.batch_id = k.id)
    ORDER BY k.device_at, k.kept_at, k.id`,
};

/** `patientWardId`: where the patient lies now. */
export type OpenBatch = KeptBatch & { patientWardId: string | null };

/** What waits for a decision, oldest first. @param ids only these; null: all */
export async function openBatches(
  pool: Pool,
  siteId: string,
  whose: Whose | null,
  ids: readonly string[] | null,
): Promise<OpenBatch[]> {
  const authorId = whose && 'authorId' in whose ? whose.authorId : null;
  const wardId = whose && 'wardId' in whose ? whose.wardId : null;
  const { rows } = await pool.query<OpenBatch>({ ...OPEN, values: [siteId, authorId, wardId, ids] });
  return rows;
}

/** $1 site, $2 author, $3 entry as JSON to be contained */
const IS_KEPT = {
  name: 'kept-holds-entry',
  text: `
    SELECT EXISTS (SELECT FROM kept_batch WHERE site_id = $1 AND author_id = $2 AND entries @> $3::jsonb) AS kept`,
};

/** Whether an entry was refused and kept: then what follows it cannot come in either. */
export async function isKept(pool: Pool, siteId: string, authorId: string, entryId: string): Promise<boolean> {
  const values = [siteId, authorId, JSON.stringify([{ id: entryId }])];
  const { rows } = await pool.query<{ kept: boolean }>({ ...IS_KEPT, values });
  return rows[0]!.kept;
}

export type End = {
  siteId: string;
  batchIds: readonly string[];
  by: string;
  how: 'sent' | 'discarded';
  reason: string | null;
  sent: readonly string[];
};

const END = {
  name: 'kept-end',
  text: `
    INSERT INTO kept_batch_end (site_id, batch_id, ended_at, ended_by, how, reason, sent)
    SELECT $1, id, now(), $3, $4, $5, $6 FROM unnest($2::uuid[]) AS id ON CONFLICT DO NOTHING`,
};

/** Says what became of batches; the first word stands. */
export async function end(pool: Pool, { siteId, batchIds, by, how, reason, sent }: End): Promise<void> {
  await pool.query({ ...END, values: [siteId, batchIds, by, how, reason, sent] });
}

/** $1 site, $2 entries */
const ANY_RECORDED = {
  name: 'kept-any-recorded',
  text: 'SELECT EXISTS (SELECT FROM entry WHERE site_id = $1 AND id = ANY($2::uuid[])) AS recorded',
};

export async function anyRecorded(pool: Pool, siteId: string, entryIds: readonly string[]): Promise<boolean> {
  const { rows } = await pool.query<{ recorded: boolean }>({ ...ANY_RECORDED, values: [siteId, entryIds] });
  return rows[0]!.recorded;
}
