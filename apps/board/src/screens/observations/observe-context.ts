import type { EntryKind, EpochMs, Payloads } from '@slackwater/domain';
import type { Act } from '../bedside/model/batch.ts';
import type { PatientContext } from '../bedside/shared/use-patient.ts';

/** What each card needs: the patient, and one way to keep what was measured. */
export type Observing = {
  patient: PatientContext;
  sending: boolean;
  /** Why nothing may be recorded at all; null when it may. */
  closed: string | null;
  keep: <K extends EntryKind>(kind: K, payload: Payloads[K]) => Promise<boolean>;
  /** Takes the patient to another ward, and the person back to this one's board. */
  transfer: (acts: readonly Act[]) => void;
  at: () => EpochMs;
};
