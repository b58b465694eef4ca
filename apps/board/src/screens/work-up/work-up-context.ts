import type { EntryKind, EpochMs, Payloads, WorkUp } from '@slackwater/domain';
import type { PatientContext } from '../bedside/shared/use-patient.ts';

/** What each part of the work-up's screen needs: the patient, the work-up, and one way to keep what is known. */
export type AtWorkUp = {
  patient: PatientContext;
  workUp: WorkUp;
  sending: boolean;
  /** Why nothing may be recorded at all; null when it may. */
  closed: string | null;
  keep: <K extends EntryKind>(kind: K, payload: Payloads[K]) => Promise<boolean>;
  at: () => EpochMs;
};
