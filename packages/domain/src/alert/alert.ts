import type { EpochMs } from '../time/instant.ts';

export type AlertRank = 'high' | 'medium' | 'low';

export type AlertKind =
  | 'drainOverdue'
  | 'fillOverdue'
  | 'holdReviewDue'
  | 'visitLeftStanding'
  | 'fillLeftStanding'
  | 'drainSlow'
  | 'drainVerySlow'
  | 'effluentCloudy'
  | 'effluentBloody'
  | 'effluentBowelOrBile'
  | 'drainShort'
  | 'tooMuchInside'
  | 'farTooMuchInside'
  | 'countersignDue';

export type EscalatedTo = 'chargeNurse' | 'physician';

/** What the rules say is true now. `cause` names the dwell, visit, drain or order: one open alert per kind and cause. */
export type AlertCondition = {
  kind: AlertKind;
  cause: string;
  rank: AlertRank;
  /** The instant from which it is true. */
  since: EpochMs;
  /** The numbers behind it, for the words: `{ dueAt, minutes }`, `{ drainedMl, filledMl, expectedMl }` … */
  facts: Readonly<Record<string, number | string | null>>;
};

export type OpenAlert = AlertCondition & {
  /** The id of the entry that raised it. */
  id: string;
  raisedAt: EpochMs;
  /** The version of the ward's settings it was raised under. */
  settingsVersion: number;
  owner: { accountId: string; until: EpochMs } | null;
  snoozedUntil: EpochMs | null;
  escalatedTo: EscalatedTo | null;
};
