import type { Permission } from '@slackwater/domain';
import type { Pool } from 'pg';
import { ProblemError } from '../problems.ts';
import type { SignedIn } from './sessions.ts';
import { openWard, rolesOn, type WardAccess } from './ward-access.ts';

/** The right to one patient: that to the ward where the patient is, or was last. */
export type PatientAccess = { ward: WardAccess; patientId: string; bed: string | null };

/** $1 site, $2 patient */
const WHERE_PATIENT_IS = {
  name: 'patient-ward',
  text: `
    SELECT b.bed,
      COALESCE(
        b.ward_id,
        (SELECT s.ward_id FROM stay s WHERE s.site_id = $1 AND s.patient_id = $2 ORDER BY s.from_at DESC LIMIT 1),
        (SELECT e.ward_id FROM entry e WHERE e.site_id = $1 AND e.patient_id = $2 ORDER BY e.sequence DESC LIMIT 1)
      ) AS ward_id
    FROM patient p LEFT JOIN bedside b ON b.site_id = p.site_id AND b.patient_id = p.id
    WHERE p.site_id = $1 AND p.id = $2`,
};

/**
 * Opens a patient for somebody who may do `permission` where the patient is.
 * @throws ProblemError `notFound` where there is no such patient or the ward is none of this person's; `notAllowed`
 */
export async function openPatient(
  pool: Pool,
  siteId: string,
  by: SignedIn,
  patientId: string,
  permission: Permission,
): Promise<PatientAccess> {
  const { rows } = await pool.query<{ ward_id: string | null; bed: string | null }>({
    ...WHERE_PATIENT_IS,
    values: [siteId, patientId],
  });
  const wardId = rows[0]?.ward_id;
  if (!wardId || rolesOn(by, wardId).length === 0) {
    throw new ProblemError('notFound', 'There is no such patient, or the patient is on none of your wards.');
  }
  return { ward: openWard(siteId, by, wardId, permission), patientId, bed: rows[0]!.bed };
}
