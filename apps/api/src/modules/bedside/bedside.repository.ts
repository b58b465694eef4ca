import type { BedsideState } from '@slackwater/domain';
import type { Pool } from 'pg';
import type { PatientAccess } from '../../access/patient-access.ts';
import { IDENTITY_COLUMNS, type IdentityRow } from '../patients/patients.repository.ts';

export type BedsideRow = IdentityRow & {
  bed: string | null;
  fold_version: number | null;
  /** null before the first entry. */
  state: BedsideState | null;
  position: number;
};

/** Patient, state and the ward's position as of one moment. $1 site, $2 ward, $3 patient */
const BEDSIDE = {
  name: 'bedside',
  text: `
    SELECT ${IDENTITY_COLUMNS}, b.bed, b.fold_version, b.state, c.position
    FROM patient p
    JOIN ward_counter c ON c.site_id = p.site_id AND c.ward_id = $2
    LEFT JOIN bedside b ON b.site_id = p.site_id AND b.patient_id = p.id
    WHERE p.site_id = $1 AND p.id = $3`,
};

export async function bedsideRow(pool: Pool, { ward, patientId }: PatientAccess): Promise<BedsideRow> {
  const values = [ward.siteId, ward.wardId, patientId];
  return (await pool.query<BedsideRow>({ ...BEDSIDE, values })).rows[0]!;
}

/** $1 site, $2 ward */
const NAMES_ON_WARD = {
  name: 'bedside-names',
  text: `
    SELECT p.id, p.family, p.given, b.bed
    FROM bedside b JOIN patient p ON p.site_id = b.site_id AND p.id = b.patient_id
    WHERE b.site_id = $1 AND b.ward_id = $2`,
};

/** The names of all who lie on the ward. */
export async function namesOnWard(pool: Pool, { ward }: PatientAccess) {
  type Row = { id: string; family: string; given: string; bed: string };
  return (await pool.query<Row>({ ...NAMES_ON_WARD, values: [ward.siteId, ward.wardId] })).rows;
}
