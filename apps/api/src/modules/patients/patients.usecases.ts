import type { Admission, AdmissionAnswer, IdentityChange } from '@slackwater/contract';
import type { PatientIdentity } from '@slackwater/domain';
import type { PatientAccess } from '../../access/patient-access.ts';
import type { SignedIn } from '../../access/sessions.ts';
import { writeEntries } from '../entries/entries.usecases.ts';
import type { Parts } from '../parts.ts';
import { hospitalNumberTaken, otherPatient, patientIdTaken } from './patients.errors.ts';
import { addIdentity, changeIdentity, identity, isHospitalNumberTaken } from './patients.repository.ts';

/**
 * Makes a patient known to the hospital and admits. Sent twice, it is done once. Where the admission is refused (the
 * bed is taken), the patient is known already, and the same request with another bed will do.
 * @throws ProblemError `taken` (hospital number, bed), `idTaken`, `invalid`, `refused`, `notAllowed`, `notFound`
 */
export async function admit(parts: Parts, by: SignedIn, request: Admission, address: string): Promise<AdmissionAnswer> {
  const { identity: patient, admission, wardId, deviceAt } = request;
  if (admission.patientId !== patient.id) throw otherPatient(patient.id, admission.patientId ?? '');
  const ward = parts.access.openWard(by, wardId, 'admitAndMove');
  const added = await addIdentity(parts.pool, ward, patient).catch((error) => {
    throw isHospitalNumberTaken(error) ? hospitalNumberTaken(patient.hospitalNumber) : error;
  });
  if (added === 'otherIdentity') throw patientIdTaken();
  const answer = await writeEntries(parts, by, { wardId, deviceAt, entries: [admission] });
  const about = { accountId: by.accountId, address, wardId, patientId: patient.id };
  await parts.access.audit.note({ action: 'admittedPatient', ...about });
  return { patient, receipt: answer.receipts[0]!, bedside: answer.bedside! };
}

/** @throws ProblemError `taken` (hospital number) */
export async function alterIdentity(
  { access, pool, live }: Parts,
  patient: PatientAccess,
  change: IdentityChange,
  address: string,
): Promise<PatientIdentity> {
  await changeIdentity(pool, patient, change).catch((error) => {
    throw isHospitalNumberTaken(error) ? hospitalNumberTaken(change.hospitalNumber ?? '') : error;
  });
  const { ward, patientId } = patient;
  live.forget(ward.wardId);
  const about = { accountId: ward.by.accountId, address, wardId: ward.wardId, patientId };
  // which fields, not what they said: names stand in one place only
  await access.audit.note({ action: 'changedIdentity', ...about, detail: { fields: Object.keys(change) } });
  return identity(pool, patient);
}
