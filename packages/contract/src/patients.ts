import type {
  Balance,
  BedsideState,
  Draft,
  DrainLearning,
  Dwell,
  Entry,
  EpochMs,
  Order,
  PatientIdentity,
  Payloads,
  PrescriptionRevision,
} from '@slackwater/domain';
import { z } from 'zod';
import type { EntryReceipt } from './entries/batch.ts';
import { STAY_PAYLOADS } from './entries/stay.ts';
import { calendarDate, instant, line, text, uuid, wardId } from './primitives.ts';

/** Nobody alive was born earlier. */
const dateOfBirth = calendarDate.refine((date) => date >= '1880-01-01' && date < '2100-01-01', {
  error: 'a date from 1880-01-01 to 2099-12-31',
});

const identityFields = {
  family: line(80),
  given: line(80),
  dateOfBirth,
  gender: line(40),
  hospitalNumber: line(40),
  allergy: text(500).nullable(),
  isolation: text(200).nullable(),
  cautions: z.array(text(200)).max(20),
};

/** Who the patient is; `id` is made by the author's device, so that a repeated request makes no second patient. */
export const patientIdentity = z.strictObject({
  id: uuid,
  ...identityFields,
}) satisfies z.ZodType<PatientIdentity>;

/** `POST /api/patients`: identity and admission stand together, or neither. */
export const admission = z.strictObject({
  identity: patientIdentity,
  wardId,
  deviceAt: instant,
  admission: z.strictObject({
    id: uuid,
    kind: z.literal('admitted'),
    format: z.literal(1),
    payload: STAY_PAYLOADS.admitted,
    patientId: uuid,
    visitId: z.null(),
    happenedAt: instant,
    after: z.null(),
  }),
});
export type Admission = {
  identity: PatientIdentity;
  wardId: string;
  deviceAt: EpochMs;
  admission: Draft<'admitted'>;
};
export type AdmissionAnswer = { patient: PatientIdentity; receipt: EntryReceipt; bedside: BedsideState };

/** `PATCH /api/patients/:id`: what is left out stays. */
export const identityChange = z.strictObject(identityFields).partial();
export type IdentityChange = z.infer<typeof identityChange>;

/** `GET /api/patients/:id/bedside` */
export type BedsideView = {
  patient: PatientIdentity;
  /** The ward of the stay, or of the last one. */
  wardId: string;
  /** null once discharged. */
  bed: string | null;
  state: BedsideState;
  /** The ward's position that `state` stands for. */
  position: number;
  likeNameBeds: readonly string[];
};

/** One entry as it may be read: with who wrote it, and what became of it. */
export type EntryView = Entry & {
  /** null: the tool itself. */
  authorName: string | null;
  /** Who let it in for an author who did not come back to it; null nearly always. */
  releasedByName: string | null;
  /** The entry that replaced it, or that said it never counted. */
  correctedBy: string | null;
  retractedBy: string | null;
};

/** `GET /api/patients/:id/entries?cursor=&limit=`, newest first. */
export type EntryPage = { entries: readonly EntryView[]; nextCursor: string | null };

/** `GET /api/patients/:id/drain-learning`: from the newest closed dwells, without one whose drain is under way. */
export type DrainLearningView = DrainLearning;

type At<T> = T & { at: EpochMs };

/** `GET /api/patients/:id/rounds?days=30` */
export type RoundsView = {
  dwells: readonly Dwell[];
  /** Oldest first; `date` is the ward's calendar day, `YYYY-MM-DD`. */
  days: readonly { date: string; balance: Balance }[];
  weights: readonly At<Payloads['weight']>[];
  bloodPressures: readonly At<Payloads['bloodPressure']>[];
  otherFluids: readonly At<Payloads['otherFluid']>[];
};

/** `GET /api/patients/:id/prescriptions`, newest first. */
export type PrescriptionsView = {
  revisions: readonly PrescriptionRevision[];
  orders: readonly Order[];
  /** Names of all accounts that occur in them. */
  names: Readonly<Record<string, string>>;
};
