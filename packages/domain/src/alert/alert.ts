import type { EpochMs } from '../time/instant.ts';

/** The gravest first. */
export const ALERT_RANKS = ['high', 'medium', 'low'] as const;

export type AlertRank = (typeof ALERT_RANKS)[number];

/** Every kind of alert and what it is called. A new one is added here and, with its rule, to the table of `rules.ts`. */
export const ALERT_TITLES = {
  drainOverdue: 'Drain overdue',
  fillOverdue: 'Fill overdue',
  holdReviewDue: 'Hold to be reviewed',
  visitLeftStanding: 'Visit left standing',
  fillLeftStanding: 'Fill left running',
  drainSlow: 'Slow drain',
  drainVerySlow: 'Drain does not end',
  effluentCloudy: 'Cloudy drain',
  effluentBloody: 'Bloody drain',
  effluentBowelOrBile: 'Drain looks of bowel or bile',
  breathless: 'Breathless',
  suddenOutflow: 'Suspected leak into bladder or bowel',
  painToCall: 'Pain',
  leakOrSwelling: 'Leak',
  exitSiteInfection: 'Suspected exit-site infection',
  workUpWaiting: 'Work-up waits',
  drainShort: 'Short drain',
  fillSlow: 'Slow fill',
  drainShortOften: 'Drains short again and again',
  dwellRetained: 'Much retained in one dwell',
  retainedTwice: 'Less out than in, two dwells running',
  overRemoval: 'Too much taken off',
  pressureOutside: 'Blood pressure outside the limits',
  temperatureOutside: 'Temperature outside the limits',
  prescriptionReviewDue: 'Prescription to be reviewed',
  tooMuchInside: 'Much inside',
  farTooMuchInside: 'Too much inside',
  countersignDue: 'Telephone order not countersigned',
} as const;

export type AlertKind = keyof typeof ALERT_TITLES;

export const ALERT_KINDS = Object.keys(ALERT_TITLES) as [AlertKind, ...AlertKind[]];

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
