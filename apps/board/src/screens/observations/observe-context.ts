import type { EntryKind, EpochMs, Payloads } from '@slackwater/domain';
import type { Act } from '../bedside/model/batch.ts';
import type { PatientContext } from '../bedside/shared/use-patient.ts';

/** An act without its time: the screen says when. */
type Untimed = { [K in EntryKind]: { kind: K; payload: Payloads[K]; id?: string } }[EntryKind];

/** What each card needs: the patient, and one way to keep what was measured. */
export type Observing = {
  patient: PatientContext;
  sending: boolean;
  /** Why nothing may be recorded at all; null when it may. */
  closed: string | null;
  keep: <K extends EntryKind>(kind: K, payload: Payloads[K]) => Promise<boolean>;
  /** Several in one touch, all or none; one may be named by its id in another. */
  keepAll: (acts: readonly Untimed[]) => Promise<boolean>;
  /** Takes the patient to another ward, and the person back to this one's board. */
  transfer: (acts: readonly Act[]) => void;
  at: () => EpochMs;
};
