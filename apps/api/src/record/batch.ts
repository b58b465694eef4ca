import type { BedsideState, Draft, EpochMs, Role } from '@slackwater/domain';
import type { AppendFailure } from './failures.ts';

/** Who writes; from the session only. */
export type Actor = { accountId: string; role: Role };

/** Entries of one patient, or of the ward itself: all are written, or none. */
export type Batch = {
  siteId: string;
  wardId: string;
  author: Actor;
  /** The device's own clock. */
  deviceAt: EpochMs;
  /** In the order in which they were written. */
  drafts: readonly Draft[];
  /** They waited on their device: `deviceAt` is when they were written there, by a clock that may have been wrong. */
  waited?: boolean;
  /** Who lets them in, where it is not their author. */
  releasedBy?: string | null;
};

export type Receipt = { id: string; position: number; receivedAt: EpochMs; happenedAt: EpochMs };

/** `bedside` is null for entries of the ward itself; `position` is the ward's after them. */
export type Appended = { receipts: readonly Receipt[]; bedside: BedsideState | null; position: number };

export type AppendResult = { ok: true; appended: Appended } | { ok: false; failure: AppendFailure };

export const failed = (failure: AppendFailure): { ok: false; failure: AppendFailure } => ({ ok: false, failure });
