import type { Admission, AdmissionAnswer, IdentityChange } from '@slackwater/contract';
import type { PatientIdentity } from '@slackwater/domain';
import type { PatientAccess } from '../../access/patient-access.ts';
import type { SignedIn } from '../../access/sessions.ts';
import { writeEntries } from '../entries/entries.usecases.ts';
import type { Parts } from '../parts.ts';
import { hospitalNumberTaken, otherPatient, patientIdTaken } from './patients.errors.ts';
import { addIdentity, identity, isHospitalNumberTaken, writeIdentity } from './patients.repository.ts';

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
  { access, pool, record }: Parts,
  patient: PatientAccess,
  change: IdentityChange,
  address: string,
): Promise<PatientIdentity> {
  const { ward, patientId } = patient;
  const { siteId, wardId, by } = ward;
  const { accountId } = by;
  // which fields, not what they said: names stand in one place only
  const fields = Object.keys(change);
  if (fields.length === 0) return identity(pool, patient);
  await record
    .changeIdentity({ siteId, wardId, patientId, accountId, fields }, (client) =>
      writeIdentity(client, patient, change),
    )
    .catch((error) => {
      throw isHospitalNumberTaken(error) ? hospitalNumberTaken(change.hospitalNumber ?? '') : error;
    });
  await access.audit.note({ action: 'changedIdentity', accountId, address, wardId, patientId, detail: { fields } });
  return identity(pool, patient);
}
