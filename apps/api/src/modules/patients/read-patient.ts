import type { FastifyRequest } from 'fastify';
import { signedInBy } from '../../access/access.plugin.ts';
import type { PatientAccess } from '../../access/patient-access.ts';
import type { Parts } from '../parts.ts';

/** Opens a patient for reading, and notes that this person looked. */
export async function readPatient(
  { access }: Pick<Parts, 'access'>,
  request: FastifyRequest,
  patientId: string,
): Promise<PatientAccess> {
  const by = signedInBy(request);
  const patient = await access.openPatient(by, patientId, 'readPatient');
  const { wardId } = patient.ward;
  const read = { action: 'readPatient' as const, accountId: by.accountId, address: request.ip, wardId, patientId };
  await access.audit.noteRead(by.sessionId, read);
  return patient;
}
