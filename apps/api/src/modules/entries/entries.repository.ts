import type { EntryView } from '@slackwater/contract';
import type { EntryKind } from '@slackwater/domain';
import type { Pool } from 'pg';
import type { PatientAccess } from '../../access/patient-access.ts';
import type { WardAccess } from '../../access/ward-access.ts';
import { epochMs } from '../../record/instants.ts';
import { entryOf, type StoredEntry } from '../../record/stored-entry.ts';

type Row = StoredEntry & {
  bytes: Buffer;
  authorName: string | null;
  releasedByName: string | null;
  replacedBy: string | null;
  replacedAs: EntryKind | null;
};

/** $1 site, $2 patient, $3 sequence of the entry before, or null, $4 how many. Erased ones cannot be read. */
const ENTRIES_BEFORE = {
  name: 'entries-before',
  text: `
    SELECT e.site_id AS "siteId", e.ward_id AS "wardId", e.position, e.id, e.patient_id AS "patientId", e.sequence,
      e.visit_id AS "visitId", e.kind, e.format, e.after, e.target, ${epochMs('e.happened_at')} AS "happenedAt",
      ${epochMs('e.device_at')} AS "deviceAt", ${epochMs('e.received_at')} AS "receivedAt", e.author_id AS author,
      p.bytes, a.name AS "authorName", l.name AS "releasedByName", r.id AS "replacedBy", r.kind AS "replacedAs"
    FROM entry e
    JOIN entry_payload p ON p.site_id = e.site_id AND p.entry_id = e.id
    LEFT JOIN account a ON a.site_id = e.site_id AND a.id = e.author_id
    LEFT JOIN account l ON l.site_id = e.site_id AND l.id = e.released_by
    LEFT JOIN entry r ON r.site_id = e.site_id AND r.target = e.id
    WHERE e.site_id = $1 AND e.patient_id = $2 AND ($3::int IS NULL OR e.sequence < $3)
    ORDER BY e.sequence DESC LIMIT $4`,
};

/** Entries in the order of their arrival, newest first; `sequence` of the last is where the next page begins. */
export async function entriesBefore(
  pool: Pool,
  { ward, patientId }: PatientAccess,
  before: number | null,
  limit: number,
): Promise<{ entries: EntryView[]; last: number | null }> {
  const { rows } = await pool.query<Row>({ ...ENTRIES_BEFORE, values: [ward.siteId, patientId, before, limit] });
  return {
    entries: rows.map(({ authorName, releasedByName, replacedBy, replacedAs, ...stored }) => ({
      ...entryOf(stored),
      authorName,
      releasedByName,
      correctedBy: replacedAs === 'corrected' ? replacedBy : null,
      retractedBy: replacedAs === 'retracted' ? replacedBy : null,
    })),
    last: rows.length === limit ? (rows.at(-1)?.sequence ?? null) : null,
  };
}

/** What an entry is in the end about: a correction of a correction is about the first one. $1 site, $2 ward, $3 entry */
const ROOT_KIND = {
  name: 'entry-root-kind',
  text: `
    WITH RECURSIVE root AS (
      SELECT kind, target FROM entry WHERE site_id = $1 AND ward_id = $2 AND id = $3
      UNION ALL
      SELECT e.kind, e.target FROM entry e JOIN root ON e.site_id = $1 AND e.id = root.target
    )
    SELECT kind FROM root WHERE target IS NULL`,
};

/** The kind that an entry of the ward is in the end about; null where no such entry stands on it. */
export async function rootKind(pool: Pool, ward: WardAccess, entryId: string): Promise<EntryKind | null> {
  const values = [ward.siteId, ward.wardId, entryId];
  const { rows } = await pool.query<{ kind: EntryKind }>({ ...ROOT_KIND, values });
  return rows[0]?.kind ?? null;
}

/** $1 site, $2 entry */
const PATIENT_OF_ENTRY = {
  name: 'entry-patient',
  text: 'SELECT patient_id AS "patientId" FROM entry WHERE site_id = $1 AND id = $2',
};

/** Whom an entry is about, wherever in the hospital it stands; null where there is none, or it is about a ward. */
export async function patientOfEntry(pool: Pool, siteId: string, entryId: string): Promise<string | null> {
  const { rows } = await pool.query<{ patientId: string | null }>({ ...PATIENT_OF_ENTRY, values: [siteId, entryId] });
  return rows[0]?.patientId ?? null;
}
