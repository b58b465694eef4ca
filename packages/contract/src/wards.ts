import type { EpochMs, PatientIdentity, Role, WardPolicy } from '@slackwater/domain';
import { z } from 'zod';
import { bed } from './entries/stay.ts';
import { clockTime, text, wardId } from './primitives.ts';

/** `POST /api/wards`: a new ward of the hospital; its settings begin with the defaults. */
export const newWard = z.strictObject({
  id: wardId,
  name: text(80),
  /** IANA name: only the ward day and the shifts know it. */
  zone: text(60),
  /** First is also the start of the ward day. */
  shiftStarts: z.array(clockTime).min(1).max(4),
  beds: z.array(bed).min(1).max(200),
});
export type NewWard = z.infer<typeof newWard>;

/** `GET /api/wards/:ward` */
export type WardView = {
  id: string;
  name: string;
  hospital: string;
  zone: string;
  policy: WardPolicy;
  staff: readonly { accountId: string; name: string; role: Role }[];
  /** Set when every patient here is invented. */
  demonstration: { seededAt: EpochMs } | null;
};

/** `GET /api/wards/:ward/beds` */
export type BedsView = { beds: readonly { bed: string; patientId: string | null }[] };

/** `GET /api/wards/:ward/patients?search=`: known to the hospital, on this ward, elsewhere, or at home. */
export type PatientsView = {
  patients: readonly { patient: PatientIdentity; wardId: string | null; bed: string | null }[];
};
