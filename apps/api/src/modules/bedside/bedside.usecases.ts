import type { BedsideView } from '@slackwater/contract';
import { FOLD_VERSION, fold, initialBedside, likeNames } from '@slackwater/domain';
import type { PatientAccess } from '../../access/patient-access.ts';
import { readHistory } from '../../record/standing.ts';
import type { Parts } from '../parts.ts';
import { identityOf } from '../patients/patients.repository.ts';
import { wardOf } from '../wards/wards.repository.ts';
import { type BedsideRow, bedsideRow, namesOnWard } from './bedside.repository.ts';

type Reads = Pick<Parts, 'pool' | 'policies'>;

/** All that the bedside screen needs of one patient. */
export async function bedsideOf(parts: Reads, patient: PatientAccess): Promise<BedsideView> {
  const [row, names] = await Promise.all([bedsideRow(parts.pool, patient), namesOnWard(parts.pool, patient)]);
  const like = likeNames(names).get(patient.patientId) ?? [];
  return {
    patient: identityOf(row),
    wardId: patient.ward.wardId,
    bed: row.bed,
    state: await stateOf(parts, patient, row),
    position: row.position,
    likeNameBeds: names.filter(({ id }) => like.includes(id)).map(({ bed }) => bed),
  };
}

/** The state as stored, or folded anew where an earlier release stored it. */
async function stateOf({ pool, policies }: Reads, { ward, patientId }: PatientAccess, row: BedsideRow) {
  if (row.state === null) return initialBedside(patientId);
  if (row.fold_version === FOLD_VERSION) return row.state;
  const { policy } = await wardOf(pool, policies, ward);
  return fold(patientId, await readHistory(pool, ward.siteId, patientId), policy).state;
}
