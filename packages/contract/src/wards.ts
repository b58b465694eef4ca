import type { EpochMs, PatientIdentity, Role, WardPolicy } from '@slackwater/domain';

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
