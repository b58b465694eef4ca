import { epochMs, NOW_MS } from '../record/instants.ts';
import type { Statement } from '../record/statements.sql.ts';

/**
 * Takes some of what is due by the database's clock, all of one ward: the one that has waited longest among those that
 * no other process is at. So processes do not queue for the same ward's counter, and all of it is written at once. A
 * bedside that somebody holds is left for later; the states come with the locks, so nobody can move on before the same
 * transaction writes. $1 site, $2 how many
 */
export const TAKE_DUE: Statement = {
  name: 'alarms-take-due',
  text: `
WITH waiting AS MATERIALIZED (
  SELECT ward_id FROM bedside
  WHERE site_id = $1 AND next_change_at <= clock_timestamp()
  GROUP BY ward_id ORDER BY min(next_change_at)
), chosen AS MATERIALIZED (
  SELECT ward_id FROM waiting
  WHERE pg_try_advisory_xact_lock(hashtextextended('alarms/' || $1 || '/' || coalesce(ward_id, ''), 0))
  LIMIT 1
)
SELECT bedside.patient_id AS "patientId", bedside.ward_id AS "wardId", bedside.version, bedside.state,
  bedside.fold_version AS "foldVersion", ward.settings_version AS "settingsVersion",
  site.formulary_version AS "formularyVersion", ${NOW_MS} AS now
FROM bedside
JOIN chosen ON chosen.ward_id IS NOT DISTINCT FROM bedside.ward_id
JOIN site ON site.id = bedside.site_id
LEFT JOIN ward ON ward.site_id = bedside.site_id AND ward.id = bedside.ward_id
WHERE bedside.site_id = $1 AND bedside.next_change_at <= clock_timestamp()
ORDER BY bedside.next_change_at
LIMIT $2
FOR NO KEY UPDATE OF bedside SKIP LOCKED`,
};

/** Nothing to say: only the next instant moves on. $1 site, $2 the bedsides */
export const MOVE_ON: Statement = {
  name: 'alarms-move-on',
  text: `
UPDATE bedside SET next_change_at = moved.next_change_at
FROM jsonb_to_recordset($2::jsonb) AS moved(patient_id uuid, version integer, next_change_at timestamptz)
WHERE bedside.site_id = $1 AND bedside.patient_id = moved.patient_id AND bedside.version = moved.version`,
};

/** The next instant at which something is due, and the clock. $1 site */
export const READ_NEXT: Statement = {
  name: 'alarms-next',
  text: `
SELECT ${epochMs('min(next_change_at)')} AS "nextAt", ${NOW_MS} AS now
FROM bedside WHERE site_id = $1 AND next_change_at IS NOT NULL`,
};
