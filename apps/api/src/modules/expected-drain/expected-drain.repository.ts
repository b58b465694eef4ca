import type { Dwell } from '@slackwater/domain';
import type { Pool } from 'pg';
import type { PatientAccess } from '../../access/patient-access.ts';

/** More teach little: an old drain counts 0.98 of the one after it, so the 120th still counts 0.09. */
const DWELLS_READ = 120;

/**
 * The newest closed dwells, without the one whose drain is under way: that one is what the others are to foresee. By the
 * index over site, patient and end of the drain. $1 site, $2 patient, $3 how many
 */
const CLOSED_DWELLS = {
  name: 'expected-drain-dwells',
  text: `
    SELECT d.content
    FROM dwell d
    WHERE d.site_id = $1 AND d.patient_id = $2 AND d.drained_at IS NOT NULL
      AND d.id IS DISTINCT FROM (
        SELECT b.state->'openDwell'->>'id' FROM bedside b WHERE b.site_id = $1 AND b.patient_id = $2
      )
    ORDER BY d.drained_at DESC, d.id DESC
    LIMIT $3`,
};

/** The patient's newest closed dwells, oldest first. */
export async function closedDwells(pool: Pool, { ward, patientId }: PatientAccess): Promise<Dwell[]> {
  const values = [ward.siteId, patientId, DWELLS_READ];
  const { rows } = await pool.query<{ content: Dwell }>({ ...CLOSED_DWELLS, values });
  return rows.map(({ content }) => content).reverse();
}
