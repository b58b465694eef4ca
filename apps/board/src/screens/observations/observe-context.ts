import type { EntryKind, EpochMs, Payloads } from '@slackwater/domain';
import type { PatientContext } from '../bedside/shared/use-patient.ts';
import type { Recorder } from '../bedside/shared/use-record.ts';

/** What each card needs: the patient, and one way to keep what was measured. */
export type Observing = {
  patient: PatientContext;
  sending: boolean;
  /** Why nothing may be recorded at all; null when it may. */
  closed: string | null;
  keep: <K extends EntryKind>(kind: K, payload: Payloads[K]) => Promise<boolean>;
  /** Several entries of one touch. */
  record: Recorder['record'];
  at: () => EpochMs;
};
