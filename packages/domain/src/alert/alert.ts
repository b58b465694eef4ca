import type { EpochMs } from '../time/instant.ts';

/** The gravest first. */
export const ALERT_RANKS = ['high', 'medium', 'low'] as const;

export type AlertRank = (typeof ALERT_RANKS)[number];

/** Every kind of alert. A new one is added here and, with its rule, to the table of `rules.ts`; the rest follows. */
export const ALERT_KINDS = [
  'drainOverdue',
  'fillOverdue',
  'holdReviewDue',
  'visitLeftStanding',
  'fillLeftStanding',
  'drainSlow',
  'drainVerySlow',
  'effluentCloudy',
  'effluentBloody',
  'effluentBowelOrBile',
  'breathless',
  'suddenOutflow',
  'painToCall',
  'leakOrSwelling',
  'exitSiteInfection',
  'workUpWaiting',
  'drainShort',
  'tooMuchInside',
  'farTooMuchInside',
  'countersignDue',
] as const;

export type AlertKind = (typeof ALERT_KINDS)[number];

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
  /** When somebody first had it; the end of an acknowledgement does not take that away. */
  acknowledgedAt: EpochMs | null;
  snoozedUntil: EpochMs | null;
  /** The step it was taken up to since somebody last had or snoozed it: when that ends, the steps begin anew. */
  escalatedTo: EscalatedTo | null;
};
