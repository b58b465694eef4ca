import { randomUUID } from 'node:crypto';
import { type Entry, initialBedside } from '@slackwater/domain';
import type { Pool, PoolClient } from 'pg';
import { createPolicies } from './policies.ts';
import { readStanding } from './standing.ts';
import { write } from './write.ts';

export type Erasure = { siteId: string; patientId: string; reason: string };

/**
 * Erases a patient by law: payloads and salts of all entries, what was refused or kept, the names, and everything that
 * was folded from them. The digests stay, so the chain is whole, and an entry says that it happened. It cannot be undone.
 * @param owner a pool of the owner's role; the server's own role may not
 * @throws when there is no such patient, or the patient still lies on a ward
 */
export async function erase(owner: Pool, { siteId, patientId, reason }: Erasure): Promise<{ entries: number }> {
  const client = await owner.connect();
  try {
    await client.query('BEGIN');
    await sayErased(client, { siteId, patientId, reason });
    const { rowCount } = await client.query(
      `DELETE FROM entry_payload AS payload USING entry
      WHERE entry.site_id = $1 AND entry.patient_id = $2 AND entry.kind <> 'erased'
        AND payload.site_id = entry.site_id AND payload.entry_id = entry.id`,
      [siteId, patientId],
    );
    for (const table of ['kept_batch', 'refused_entry'])
      await client.query(`DELETE FROM ${table} WHERE site_id = $1 AND patient_id = $2`, [siteId, patientId]);
    await client.query(
      `UPDATE patient SET hospital_number = 'erased ' || id, family = 'Erased', given = '', date_of_birth = '1900-01-01',
        gender = '', allergy = NULL, isolation = NULL, cautions = '{}', erased_at = clock_timestamp()
      WHERE site_id = $1 AND id = $2`,
      [siteId, patientId],
    );
    await client.query('COMMIT');
    client.release();
    return { entries: rowCount ?? 0 };
  } catch (error) {
    client.release(error as Error);
    throw error;
  }
}

/** The entry, in the ward of the patient's newest one; it also takes away what was folded. */
async function sayErased(client: PoolClient, { siteId, patientId, reason }: Erasure): Promise<void> {
  const { rows } = await client.query<{ wardId: string; lies: boolean }>(
    `SELECT newest.ward_id AS "wardId", bedside.ward_id IS NOT NULL AS lies
    FROM bedside JOIN entry AS newest ON newest.site_id = bedside.site_id AND newest.patient_id = bedside.patient_id
      AND newest.sequence = bedside.version
    WHERE bedside.site_id = $1 AND bedside.patient_id = $2 FOR NO KEY UPDATE OF bedside`,
    [siteId, patientId],
  );
  const found = rows[0];
  if (found === undefined) throw new Error(`There is no record of patient ${patientId}.`);
  if (found.lies) throw new Error(`Patient ${patientId} lies on ward ${found.wardId}: discharge first.`);
  const standing = await readStanding(client, createPolicies(), siteId, found.wardId, patientId);
  if (standing === null) throw new Error(`There is no ward ${found.wardId}.`);
  const { now, version } = standing;
  const entry: Entry<'erased'> = {
    id: randomUUID(),
    kind: 'erased',
    format: 1,
    payload: { reason },
    patientId,
    visitId: null,
    happenedAt: now,
    after: null,
    siteId,
    wardId: found.wardId,
    deviceAt: null,
    receivedAt: now,
    author: null,
    position: version + 1,
  };
  await write(client, {
    siteId,
    wardId: found.wardId,
    bedsides: [
      { patientId, seen: version, version: version + 1, state: initialBedside(patientId), nextChangeAt: null },
    ],
    entries: [entry],
    rows: {},
    replace: true,
    settings: null,
  });
}
