import { epochMs, NOW_MS } from './instants.ts';

/** A prepared statement of the `pg` pool: planned once a connection. */
export type Statement = { name: string; text: string };

/** Where notifications of new positions go: `site/ward:position`. */
export const POSITION_CHANNEL = 'slackwater_position';

/** What an author's decision rests on, in one round trip: ward, bedside, clock, and what stands under the batch's ids. */
export const READ_STANDING: Statement = {
  name: 'record-standing',
  text: `
SELECT ward.settings_version AS "settingsVersion",
  site.formulary_version AS "formularyVersion",
  ${NOW_MS} AS "now",
  patient.id IS NOT NULL AS "patientKnown",
  coalesce(bedside.version, 0) AS "version",
  bedside.patient_id IS NOT NULL AS "bedsideExists",
  bedside.ward_id AS "wardId",
  bedside.bed,
  bedside.fold_version AS "foldVersion",
  bedside.state,
  ${epochMs('bedside.next_change_at')} AS "nextChangeAt",
  counter.position
FROM ward
JOIN site ON site.id = ward.site_id
JOIN ward_counter AS counter ON counter.site_id = ward.site_id AND counter.ward_id = ward.id
LEFT JOIN patient ON patient.site_id = ward.site_id AND patient.id = $3::uuid
LEFT JOIN bedside ON bedside.site_id = ward.site_id AND bedside.patient_id = patient.id
WHERE ward.site_id = $1 AND ward.id = $2`,
};

const ENTRY_COLUMNS = `
  entry.site_id AS "siteId", entry.ward_id AS "wardId", entry.position, entry.id, entry.patient_id AS "patientId",
  entry.sequence, entry.visit_id AS "visitId", entry.kind, entry.format, entry.after, entry.target,
  ${epochMs('entry.happened_at')} AS "happenedAt", ${epochMs('entry.device_at')} AS "deviceAt",
  ${epochMs('entry.received_at')} AS "receivedAt", entry.author_id AS "author", payload.bytes`;

const WITH_PAYLOAD = `
LEFT JOIN entry_payload AS payload ON payload.site_id = entry.site_id AND payload.entry_id = entry.id`;

/** Entries by their ids, wherever in the hospital they stand. */
export const READ_BY_IDS: Statement = {
  name: 'record-by-ids',
  text: `SELECT ${ENTRY_COLUMNS} FROM entry ${WITH_PAYLOAD} WHERE entry.site_id = $1 AND entry.id = ANY($2::uuid[])`,
};

/** All entries of a patient, in the order of their arrival. */
export const READ_PATIENT: Statement = {
  name: 'record-patient',
  text: `SELECT ${ENTRY_COLUMNS} FROM entry ${WITH_PAYLOAD}
WHERE entry.site_id = $1 AND entry.patient_id = $2 ORDER BY entry.sequence`,
};

/** The few entries that say where a patient lies and what is prescribed; the words of the index `entry_standing`. */
export const READ_STANDING_ENTRIES: Statement = {
  name: 'record-standing-entries',
  text: `SELECT ${ENTRY_COLUMNS} FROM entry ${WITH_PAYLOAD}
WHERE entry.site_id = $1 AND entry.patient_id = $2
  AND entry.kind IN ('admitted', 'transferredOut', 'transferredIn', 'movedBed', 'discharged', 'catheter',
    'dialysisPeriod', 'prescribed', 'ordered', 'countersigned', 'orderEnded', 'corrected', 'retracted')
ORDER BY entry.sequence`,
};

export const MAKE_BEDSIDE: Statement = {
  name: 'record-make-bedside',
  text: `INSERT INTO bedside (site_id, patient_id, version, fold_version) VALUES ($1, $2, 0, $3) ON CONFLICT DO NOTHING`,
};

export const KEEP_REFUSED: Statement = {
  name: 'record-keep-refused',
  text: `
INSERT INTO refused_entry (site_id, id, ward_id, entry_id, patient_id, kind, author_id, device_at, received_at, draft, problems)
SELECT $1, x.id, $2, x.entry_id, x.patient_id, x.kind, $3, $4, clock_timestamp(), x.draft, $6
FROM jsonb_to_recordset($5::jsonb) AS x(id uuid, entry_id uuid, patient_id uuid, kind text, draft jsonb)`,
};
