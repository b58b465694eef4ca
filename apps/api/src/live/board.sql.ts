import { NOW_MS } from '../record/instants.ts';
import type { Statement } from '../record/statements.sql.ts';

const PATIENT = `json_build_object('id', patient.id, 'family', patient.family, 'given', patient.given,
  'dateOfBirth', to_char(patient.date_of_birth, 'YYYY-MM-DD'), 'gender', patient.gender,
  'hospitalNumber', patient.hospital_number, 'allergy', patient.allergy, 'isolation', patient.isolation,
  'cautions', patient.cautions)`;

/**
 * The epoch that a board must not outlive: the random one, written anew by every restore, and the database's timeline,
 * which a standby leaves when it is promoted and may have lacked the last positions.
 */
const EPOCH = `epoch.epoch || '.' || left(pg_walfile_name(pg_current_wal_lsn()), 8) AS epoch`;

/** Position, versions and epoch of a ward: one row with every board row, or alone where there is none. */
const HEAD = `counter.position, ward.settings_version AS "settingsVersion",
  site.formulary_version AS "formularyVersion", ${EPOCH}`;

const FROM_WARD = `
FROM ward_counter AS counter
JOIN ward ON ward.site_id = counter.site_id AND ward.id = counter.ward_id
JOIN site ON site.id = counter.site_id
JOIN epoch ON epoch.site_id = counter.site_id`;

/** Everybody on the ward, in one snapshot with the position. $1 site, $2 ward */
export const READ_BOARD: Statement = {
  name: 'live-board',
  text: `
SELECT ${HEAD}, bedside.patient_id AS "patientId", true AS here, ${PATIENT} AS patient, bedside.version, bedside.state,
  bedside.fold_version AS "foldVersion"
${FROM_WARD}
LEFT JOIN bedside ON bedside.site_id = counter.site_id AND bedside.ward_id = counter.ward_id
LEFT JOIN patient ON patient.site_id = bedside.site_id AND patient.id = bedside.patient_id
LEFT JOIN bed ON bed.site_id = bedside.site_id AND bed.ward_id = bedside.ward_id AND bed.id = bedside.bed
WHERE counter.site_id = $1 AND counter.ward_id = $2
ORDER BY bed.place, bedside.patient_id`,
};

/** Those of whom an entry speaks after a position; not `here`: they left. $1 site, $2 ward, $3 position */
export const READ_CHANGED: Statement = {
  name: 'live-changed',
  text: `
SELECT ${HEAD}, bedside.patient_id AS "patientId", coalesce(bedside.ward_id = counter.ward_id, false) AS here,
  ${PATIENT} AS patient, bedside.version, bedside.state, bedside.fold_version AS "foldVersion"
${FROM_WARD}
LEFT JOIN (
  SELECT DISTINCT patient_id FROM entry WHERE site_id = $1 AND ward_id = $2 AND position > $3 AND patient_id IS NOT NULL
) AS changed ON true
LEFT JOIN bedside ON bedside.site_id = counter.site_id AND bedside.patient_id = changed.patient_id
LEFT JOIN patient ON patient.site_id = bedside.site_id AND patient.id = bedside.patient_id
WHERE counter.site_id = $1 AND counter.ward_id = $2`,
};

/** Who left since a position, for a board that this process did not see grow old. $1 site, $2 ward, $3 position */
export const READ_GONE: Statement = {
  name: 'live-gone',
  text: `
SELECT DISTINCT entry.patient_id AS "patientId"
FROM entry JOIN bedside ON bedside.site_id = entry.site_id AND bedside.patient_id = entry.patient_id
WHERE entry.site_id = $1 AND entry.ward_id = $2 AND entry.position > $3
  AND entry.kind IN ('transferredOut', 'discharged', 'retracted') AND bedside.ward_id IS DISTINCT FROM entry.ward_id`,
};

/** All wards' positions, and the database's clock. $1 site */
export const READ_POSITIONS: Statement = {
  name: 'live-positions',
  text: `
SELECT ward_id AS "wardId", position, ${EPOCH}, ${NOW_MS} AS now
FROM ward_counter JOIN epoch USING (site_id) WHERE site_id = $1`,
};
