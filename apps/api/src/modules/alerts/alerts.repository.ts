import type { ClearedAlert } from '@slackwater/contract';
import type { CountedAlert, EpochMs, NurseOnDuty } from '@slackwater/domain';
import type { Pool } from 'pg';
import type { WardAccess } from '../../access/ward-access.ts';
import { epochMs, iso } from '../../record/instants.ts';

/** $1 site, $2 ward, $3 from, $4 how many */
const CLEARED = {
  name: 'alerts-cleared',
  text: `
SELECT alert.id, alert.patient_id AS "patientId", patient.family || ', ' || patient.given AS "patientName", bedside.bed,
  alert.kind, alert.rank, ${epochMs('alert.since')} AS since, ${epochMs('alert.raised_at')} AS "raisedAt",
  alert.settings_version AS "settingsVersion", ${epochMs('alert.acknowledged_at')} AS "acknowledgedAt",
  ${epochMs('alert.cleared_at')} AS "clearedAt", alert.cleared_by AS "clearedBy", account.name AS "clearedByName",
  alert.clear_reason AS reason
FROM alert
JOIN patient ON patient.site_id = alert.site_id AND patient.id = alert.patient_id
LEFT JOIN bedside ON bedside.site_id = alert.site_id AND bedside.patient_id = alert.patient_id
  AND bedside.ward_id = alert.ward_id
LEFT JOIN account ON account.site_id = alert.site_id AND account.id = alert.cleared_by_id
WHERE alert.site_id = $1 AND alert.ward_id = $2 AND alert.cleared_at >= $3
ORDER BY alert.cleared_at DESC, alert.id LIMIT $4`,
};

/** Alerts of the ward that ended at or after `from`, the newest first. */
export async function clearedSince(
  pool: Pool,
  { siteId, wardId }: WardAccess,
  from: EpochMs,
  limit: number,
): Promise<ClearedAlert[]> {
  const { rows } = await pool.query<ClearedAlert>({ ...CLEARED, values: [siteId, wardId, iso(from), limit] });
  return rows;
}

/** $1 site, $2 ward, $3 from, $4 to, $5 how many */
const RAISED = {
  name: 'alerts-raised',
  text: `
SELECT patient_id AS "patientId", kind, cause, rank, ${epochMs('raised_at')} AS "raisedAt",
  ${epochMs('acknowledged_at')} AS "acknowledgedAt", snoozed_until IS NOT NULL AS "wasSnoozed",
  ${epochMs('cleared_at')} AS "clearedAt", cleared_by AS "clearedBy"
FROM alert WHERE site_id = $1 AND ward_id = $2 AND raised_at >= $3 AND raised_at < $4
ORDER BY raised_at DESC LIMIT $5`,
};

/** Alerts of the ward that were raised in a time, for counting; at most `limit`. */
export async function raisedBetween(
  pool: Pool,
  { siteId, wardId }: WardAccess,
  from: EpochMs,
  to: EpochMs,
  limit: number,
): Promise<CountedAlert[]> {
  const values = [siteId, wardId, iso(from), iso(to), limit];
  const { rows } = await pool.query<CountedAlert>({ ...RAISED, values });
  return rows;
}

/** An assignment lasts a shift; the index is by its beginning. $1 site, $2 ward, $3 from, $4 to */
const ON_DUTY = {
  name: 'alerts-on-duty',
  text: `
SELECT account_id AS "accountId", ${epochMs('from_at')} AS "from", ${epochMs('to_at')} AS "to"
FROM assignment
WHERE site_id = $1 AND ward_id = $2 AND from_at >= $3::timestamptz - interval '2 days' AND from_at < $4
  AND to_at > $3 AND account_id IS NOT NULL`,
};

/** Who had patients of the ward in their care in a time. */
export async function onDutyBetween(
  pool: Pool,
  { siteId, wardId }: WardAccess,
  from: EpochMs,
  to: EpochMs,
): Promise<NurseOnDuty[]> {
  const { rows } = await pool.query<NurseOnDuty>({ ...ON_DUTY, values: [siteId, wardId, iso(from), iso(to)] });
  return rows;
}
