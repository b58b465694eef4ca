import { isDeepStrictEqual } from 'node:util';
import type { IdentityChange, PatientsView } from '@slackwater/contract';
import type { PatientIdentity } from '@slackwater/domain';
import type { Pool, PoolClient } from 'pg';
import type { PatientAccess } from '../../access/patient-access.ts';
import type { WardAccess } from '../../access/ward-access.ts';

/** A patient as Postgres answers it; `date_of_birth` as text, since a date has no instant. */
export type IdentityRow = {
  id: string;
  family: string;
  given: string;
  date_of_birth: string;
  gender: string;
  hospital_number: string;
  allergy: string | null;
  isolation: string | null;
  cautions: string[];
};

/** The columns of an `IdentityRow`, of a table named `p`. */
export const IDENTITY_COLUMNS = `p.id, p.family, p.given, p.date_of_birth::text, p.gender, p.hospital_number, p.allergy,
      p.isolation, p.cautions`;

export const identityOf = (row: IdentityRow): PatientIdentity => ({
  id: row.id,
  family: row.family,
  given: row.given,
  dateOfBirth: row.date_of_birth,
  gender: row.gender,
  hospitalNumber: row.hospital_number,
  allergy: row.allergy,
  isolation: row.isolation,
  cautions: row.cautions,
});

/** $1 site, $2 patient */
const IDENTITY = {
  name: 'patient-identity',
  text: `SELECT ${IDENTITY_COLUMNS} FROM patient p WHERE p.site_id = $1 AND p.id = $2`,
};

export async function identity(pool: Pool, { ward, patientId }: PatientAccess): Promise<PatientIdentity> {
  const { rows } = await pool.query<IdentityRow>({ ...IDENTITY, values: [ward.siteId, patientId] });
  return identityOf(rows[0]!);
}

/** $1 site, $2 ward, $3 pattern, $4 whether the whole hospital is searched, $5 how many */
const SEARCH = {
  name: 'patient-search',
  text: `
    SELECT ${IDENTITY_COLUMNS}, b.ward_id, b.bed
    FROM patient p LEFT JOIN bedside b ON b.site_id = p.site_id AND b.patient_id = p.id
    WHERE p.site_id = $1 AND p.erased_at IS NULL
      AND (p.family || ' ' || p.given ILIKE $3 OR p.given ILIKE $3 OR p.hospital_number ILIKE $3)
      AND ($4 OR b.ward_id = $2
        OR EXISTS (SELECT FROM stay s WHERE s.site_id = $1 AND s.patient_id = p.id AND s.ward_id = $2))
    ORDER BY p.family, p.given, p.id LIMIT $5`,
};

const MOST_FOUND = 50;

/** Patients whose family name, given name or hospital number begins so. */
export async function search(
  pool: Pool,
  ward: WardAccess,
  beginning: string,
  wholeHospital: boolean,
): Promise<PatientsView['patients']> {
  const pattern = `${beginning.replaceAll(/[\\%_]/g, '\\$&')}%`;
  const { rows } = await pool.query<IdentityRow & { ward_id: string | null; bed: string | null }>({
    ...SEARCH,
    values: [ward.siteId, ward.wardId, pattern, wholeHospital, MOST_FOUND],
  });
  return rows.map((row) => ({ patient: identityOf(row), wardId: row.ward_id, bed: row.bed }));
}

/** $1 site, $2 id, $3 … the fields of an identity */
const ADD_IDENTITY = {
  name: 'patient-add',
  text: `
    INSERT INTO patient (site_id, id, family, given, date_of_birth, gender, hospital_number, allergy, isolation,
      cautions, created_at)
    VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, now())
    ON CONFLICT (site_id, id) DO NOTHING`,
};

/** Adds a patient; the same one twice is one. @throws on a hospital number that another patient has */
export async function addIdentity(
  pool: Pool,
  { siteId }: WardAccess,
  patient: PatientIdentity,
): Promise<'added' | 'known' | 'otherIdentity'> {
  const { id, family, given, dateOfBirth, gender, hospitalNumber, allergy, isolation, cautions } = patient;
  const fields = [family, given, dateOfBirth, gender, hospitalNumber, allergy, isolation, cautions];
  const { rowCount } = await pool.query({ ...ADD_IDENTITY, values: [siteId, id, ...fields] });
  if (rowCount === 1) return 'added';
  const { rows } = await pool.query<IdentityRow>({ ...IDENTITY, values: [siteId, id] });
  return isDeepStrictEqual(identityOf(rows[0]!), patient) ? 'known' : 'otherIdentity';
}

/** Whether a write failed because another patient has the hospital number. */
export const isHospitalNumberTaken = (error: unknown): boolean =>
  (error as { constraint?: string }).constraint === 'patient_site_id_hospital_number_key';

/** The column of each field of an identity. */
const COLUMNS = {
  family: 'family',
  given: 'given',
  dateOfBirth: 'date_of_birth',
  gender: 'gender',
  hospitalNumber: 'hospital_number',
  allergy: 'allergy',
  isolation: 'isolation',
  cautions: 'cautions',
} as const satisfies Record<keyof Omit<PatientIdentity, 'id'>, string>;

/** Writes the fields that are given; at least one is. */
export async function writeIdentity(
  client: PoolClient,
  { ward, patientId }: PatientAccess,
  change: IdentityChange,
): Promise<void> {
  const fields = Object.keys(COLUMNS).filter((field) => field in change) as (keyof typeof COLUMNS)[];
  const set = fields.map((field, index) => `${COLUMNS[field]} = $${index + 3}`).join(', ');
  const values = [ward.siteId, patientId, ...fields.map((field) => change[field])];
  await client.query(`UPDATE patient SET ${set} WHERE site_id = $1 AND id = $2`, values);
}
