import type { BedsideState, Due } from '../bedside/state.ts';
import { minutesBetween, plusMinutes } from '../time/instant.ts';
import type { WardPolicy } from '../ward/policy.ts';
import { formatClock, formatDate } from '../words/numbers.ts';
import { clockOf, minutesOf, textOf } from './fact-words.ts';
import type { AlertRule, Facts, Span } from './rule.ts';

const MARGIN = 'Ward setting: a share of the planned dwell, within a least and a most. Common practice.';

/** Overdue is of medium rank; at twice its margin it becomes high. */
function overdueSpans(due: Due, cause: string): readonly Span[] {
  const facts = {
    dueAt: due.dueAt,
    overdueAfterMinutes: minutesBetween(due.dueAt, due.overdueAt),
    highAfterMinutes: minutesBetween(due.dueAt, due.farOverdueAt),
    rule: due.rule,
  };
  return [
    { cause, rank: 'medium', since: due.overdueAt, until: due.farOverdueAt, facts },
    { cause, rank: 'high', since: due.farOverdueAt, until: null, facts },
  ];
}

/** What is inside, by the entry that put it there. */
function causeOfDrain({ cavity }: BedsideState): string {
  const first = cavity.state === 'holding' ? cavity.fills[0]?.entryId : undefined;
  return first ?? `cavity-${cavity.since}`;
}

/** The margins that are reckoned into the due time when the fill ends. */
const MARGIN_SETTINGS = ['overduePercent', 'overdueLeastMinutes', 'overdueMostMinutes'] as const;

const spansOf =
  (what: 'drain' | 'fill', cause: (state: BedsideState) => string): AlertRule['spans'] =>
  (state) =>
    state.due?.what === what ? overdueSpans(state.due, cause(state)) : [];

const overdueWhy = (what: string) => (facts: Facts, policy: WardPolicy) =>
  `The ${what} was due at ${clockOf(facts.dueAt, policy)}; overdue after ${minutesOf(facts.overdueAfterMinutes)}, ` +
  `high after ${minutesOf(facts.highAfterMinutes)}.`;

export const drainOverdue: AlertRule = {
  spans: spansOf('drain', causeOfDrain),
  staysUntilCleared: false,
  ranks: ['high', 'medium'],
  when: 'What is inside should have been drained: medium after the margin, high after twice the margin.',
  ends: 'The drain begins, or an order gives it another time.',
  settings: MARGIN_SETTINGS,
  why: overdueWhy('drain'),
  next: () => 'Drain, or enter the drain that was missed.',
  source: MARGIN,
};

export const fillOverdue: AlertRule = {
  spans: spansOf('fill', ({ cavity }) => `cavity-${cavity.since}`),
  staysUntilCleared: false,
  ranks: ['high', 'medium'],
  when: 'An empty cavity should have been filled: medium after the margin, high after twice the margin.',
  ends: 'The fill begins, the stay empty is ordered until a later time, or fills are held.',
  settings: [...MARGIN_SETTINGS, 'fillAfterDrainMinutes'],
  why: overdueWhy('fill'),
  next: () => 'Fill, or have the stay empty ordered until a time.',
  source: MARGIN,
};

/** A hold is reviewed in the daytime, by a physician: overdue stays of medium rank. */
export const holdReviewDue: AlertRule = {
  spans: ({ hold }) => {
    if (hold === null) return [];
    const facts = { reviewBy: hold.reviewBy, heldSince: hold.since, reason: hold.reason };
    return [{ cause: `hold-${hold.since}`, rank: 'medium', since: hold.reviewBy, until: null, facts }];
  },
  staysUntilCleared: false,
  ranks: ['medium'],
  when: 'A hold has passed the time at which it was to be reviewed.',
  ends: 'The hold is lifted, or gets a new time for its review.',
  settings: [],
  why: (facts, policy) =>
    `On hold since ${clockOf(facts.heldSince, policy)}: ${textOf(facts.reason)}. Review was due at ${clockOf(facts.reviewBy, policy)}.`,
  next: () => 'Lift the hold, or hold on with a new time for its review.',
  source: 'The review time that the physician set.',
};

/** A revision counts as reviewed when it was written; a new one is the review. */
export const prescriptionReviewDue: AlertRule = {
  spans: ({ prescription, discontinuedAt }, { settings }) => {
    if (prescription === null || discontinuedAt !== null) return [];
    const { acute, prescribedAt, reviewBy } = prescription;
    const daily = acute ? plusMinutes(prescribedAt, settings.acuteReviewHours * 60) : null;
    const by = [reviewBy, daily].filter((at) => at !== null);
    if (by.length === 0) return [];
    const since = Math.min(...by);
    const facts = { prescribedAt, reviewBy: since, kind: acute ? 'acute' : 'chronic' };
    return [{ cause: prescription.id, rank: 'medium', since, until: null, facts }];
  },
  staysUntilCleared: false,
  ranks: ['medium'],
  when: 'An acute prescription was not reviewed for a day, or the review that the physician set is past.',
  ends: 'A new revision is prescribed, or the prescription is discontinued.',
  settings: ['acuteReviewHours'],
  why: (facts, policy) =>
    `The ${textOf(facts.kind)} prescription is of ${formatInstant(facts.prescribedAt, policy)}; its review was due ${formatInstant(facts.reviewBy, policy)}.`,
  next: () => 'Ask the physician to review it: the same again is a review too, once it is prescribed.',
  source: 'Acute prescriptions are reviewed daily: Int J Nephrol 2011:739794, Table 7. Ward setting.',
};

const formatInstant = (at: Facts[string] | undefined, { zone }: Pick<WardPolicy, 'zone'>): string =>
  typeof at === 'number' ? `${formatDate(at, zone)} ${formatClock(at, zone)}` : 'at a time not known';

export const countersignDue: AlertRule = {
  spans: ({ orders, awaitingCountersign }) =>
    [...orders, ...awaitingCountersign].flatMap((order) => {
      if (order.telephone === null || order.countersignBy === null || order.countersignedBy !== null) return [];
      const facts = {
        givenAt: order.givenAt,
        countersignBy: order.countersignBy,
        physician: order.telephone.physician,
      };
      return [{ cause: order.id, rank: 'low' as const, since: order.countersignBy, until: null, facts }];
    }),
  staysUntilCleared: false,
  ranks: ['low'],
  when: 'An order by telephone was not countersigned in time.',
  ends: 'A physician countersigns it.',
  settings: ['countersignHours'],
  why: (facts, policy) =>
    `Ordered by telephone at ${clockOf(facts.givenAt, policy)} by ${textOf(facts.physician)}; to be countersigned by ` +
    `${clockOf(facts.countersignBy, policy)}.`,
  next: () => 'Ask the physician to countersign it.',
  source: 'Ward setting. Common practice.',
};
