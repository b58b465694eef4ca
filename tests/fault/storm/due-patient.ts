import { randomUUID } from 'node:crypto';
import { MINUTE_MS } from '@slackwater/domain';
import { NO_LIMITS } from '@slackwater/domain/testing/no-limits';
import { draft, identity } from '../../api/hospital.ts';
import { type Signed, signedRequest } from '../recorder.ts';

/** The shortest dwell, after which the shortest margin is 10 min: then it is overdue. */
const DWELL_MINUTES = 10;
const OVERDUE_MINUTES = DWELL_MINUTES + 10;
const SOON_MS = 1_000;

/**
 * A patient whose drain falls overdue in a moment, with nobody doing anything.
 * @param soonMs after so long
 * @returns the patient's id
 */
export async function admitNearlyOverdue(
  url: string,
  charge: Signed,
  physician: Signed,
  bed: string,
  soonMs = SOON_MS,
): Promise<string> {
  const patient = identity(`Marram ${bed}`);
  const patientId = patient.id;
  const fillEndedAt = Date.now() - OVERDUE_MINUTES * MINUTE_MS + soonMs;
  const inside = { cavity: 'holding', solutionId: 'glucose-1.36', filledMl: 2000, fillEndedAt } as const;
  const admission = draft('admitted', { bed, inside, dialysis: 'chronic' }, { patientId });
  const admitted = { identity: patient, wardId: 'kestrel', deviceAt: Date.now(), admission };
  await signedRequest(url, '/api/patients', charge, admitted);
  const item = {
    id: randomUUID(),
    solutionId: 'glucose-1.36',
    fillMl: 2000,
    additives: [],
    dwell: { by: 'length', dwellMinutes: DWELL_MINUTES },
    windowMinutes: 0,
    condition: null,
  } as const;
  const prescribed = draft(
    'prescribed',
    { items: [item], limits: NO_LIMITS, acute: false, note: null, reviewBy: null },
    { patientId },
  );
  await signedRequest(url, '/api/entries', physician, {
    wardId: 'kestrel',
    deviceAt: Date.now(),
    entries: [prescribed],
  });
  return patientId;
}
