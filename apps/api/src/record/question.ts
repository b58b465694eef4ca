import type { BedsideState, Draft, Entry, EpochMs, WardPolicy } from '@slackwater/domain';
import type { Actor } from './batch.ts';

/** What is decided about. */
export type Question = {
  siteId: string;
  wardId: string;
  patientId: string;
  policy: WardPolicy;
  /** The database's clock. */
  now: EpochMs;
  /** Sequence of the patient's newest entry. */
  version: number;
  state: BedsideState;
  /** The rows beside the bedside are of another fold or of other settings: they are made anew. */
  isStale: boolean;
  deviceAt: EpochMs | null;
  drafts: readonly Draft[];
  /** null: the tool itself, which needs nobody's leave. */
  author: Actor | null;
};

/** What else may have to be read; most decisions need nothing of it. */
export type Reads = {
  history(): Promise<readonly Entry[]>;
  standing(): Promise<readonly Entry[]>;
};
