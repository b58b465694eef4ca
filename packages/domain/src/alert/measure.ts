import { median, sampleQuantile } from '../statistics/median.ts';
import { type EpochMs, MINUTE_MS } from '../time/instant.ts';
import { ALERT_RANKS, type AlertKind, type AlertRank } from './alert.ts';

/** An alert as the table keeps it, for counting. */
export type CountedAlert = {
  patientId: string;
  kind: AlertKind;
  cause: string;
  rank: AlertRank;
  raisedAt: EpochMs;
  /** When somebody first had it. */
  acknowledgedAt: EpochMs | null;
  wasSnoozed: boolean;
  clearedAt: EpochMs | null;
  clearedBy: 'condition' | 'person' | null;
};

/** Somebody had patients of the ward in their care, from when to when. */
export type NurseOnDuty = { accountId: string; from: EpochMs; to: EpochMs };

export type ShareOf = { count: number; of: number; percent: number };

/** What the tool says about its own alerts. null: there was nothing to count it from. */
export type AlertMeasures = {
  raised: number;
  /** Time in which nurses had patients in their care, added up, minutes. */
  nurseMinutes: number;
  perNurseTenMinutes: number | null;
  byRank: Readonly<Record<AlertRank, ShareOf | null>>;
  /** From raised to the first that had it, over those that somebody had. */
  minutesToAcknowledge: { median: number; p90: number; count: number } | null;
  /** Of those that ended: nobody had them, snoozed them or cleared them. */
  neverActedOn: ShareOf | null;
  /** Kinds by how often they were raised, the noisiest first. */
  noisiest: readonly { kind: AlertKind; raised: ShareOf; neverActedOn: ShareOf | null }[];
};

/**
 * What an alarm system should come to in steady work: EEMUA Publication 191 as widely cited (at most one alarm per
 * operator and ten minutes; about 5 % high, 15 % medium, 80 % low). From memory of the cited source.
 */
export const ALERT_AIMS = { perNurseTenMinutes: 1, percent: { high: 5, medium: 15, low: 80 } } as const;

/**
 * Measures the alerts that were raised in a time.
 * @param alerts all that were raised from `from` on and before `to`
 * @param duty who had patients in their care; what lies outside the time is cut off, what overlaps counts once a nurse
 */
export function measureAlerts(
  alerts: readonly CountedAlert[],
  duty: readonly NurseOnDuty[],
  from: EpochMs,
  to: EpochMs,
): AlertMeasures {
  const nurseMinutes = minutesOnDuty(duty, from, to);
  const raised = alerts.length;
  return {
    raised,
    nurseMinutes,
    perNurseTenMinutes: nurseMinutes > 0 ? raised / (nurseMinutes / 10) : null,
    byRank: Object.fromEntries(
      ALERT_RANKS.map((rank) => [rank, shareOf(alerts.filter((alert) => alert.rank === rank).length, raised)]),
    ) as Record<AlertRank, ShareOf | null>,
    minutesToAcknowledge: timesOf(alerts),
    neverActedOn: neverActedOn(alerts),
    noisiest: noisiestOf(alerts),
  };
}

const shareOf = (count: number, of: number): ShareOf | null =>
  of === 0 ? null : { count, of, percent: (100 * count) / of };

/** The time that each nurse had somebody in their care, added up over nurses. */
function minutesOnDuty(duty: readonly NurseOnDuty[], from: EpochMs, to: EpochMs): number {
  const spansOf = Map.groupBy(
    duty
      .map((one) => ({ ...one, from: Math.max(one.from, from), to: Math.min(one.to, to) }))
      .filter((one) => one.from < one.to),
    ({ accountId }) => accountId,
  );
  return [...spansOf.values()].reduce((sum, spans) => sum + lengthOf(spans), 0) / MINUTE_MS;
}

/** How much time spans cover together; where they overlap it counts once. */
function lengthOf(spans: readonly { from: EpochMs; to: EpochMs }[]): number {
  let covered = 0;
  let until = Number.NEGATIVE_INFINITY;
  for (const span of spans.toSorted((a, b) => a.from - b.from)) {
    covered += Math.max(0, span.to - Math.max(span.from, until));
    until = Math.max(until, span.to);
  }
  return covered;
}

function timesOf(alerts: readonly CountedAlert[]): AlertMeasures['minutesToAcknowledge'] {
  const minutes = alerts.flatMap(({ raisedAt, acknowledgedAt }) =>
    acknowledgedAt === null ? [] : [(acknowledgedAt - raisedAt) / MINUTE_MS],
  );
  const [middle, p90] = [median(minutes), sampleQuantile(minutes, 0.9)];
  return middle === null || p90 === null ? null : { median: middle, p90, count: minutes.length };
}

const keyOf = ({ patientId, kind, cause }: CountedAlert): string => JSON.stringify([patientId, kind, cause]);

/**
 * Of the alerts that ended, those with which nobody did anything. One that only gave way to a graver one of its kind
 * did not end: the graver one counts.
 */
function neverActedOn(alerts: readonly CountedAlert[]): ShareOf | null {
  const raisings = new Set(alerts.map((alert) => `${keyOf(alert)} ${alert.raisedAt}`));
  const ended = alerts.filter(
    (alert) => alert.clearedAt !== null && !raisings.has(`${keyOf(alert)} ${alert.clearedAt}`),
  );
  const untouched = ended.filter(
    (alert) => alert.acknowledgedAt === null && !alert.wasSnoozed && alert.clearedBy !== 'person',
  );
  return shareOf(untouched.length, ended.length);
}

function noisiestOf(alerts: readonly CountedAlert[]): AlertMeasures['noisiest'] {
  return [...Map.groupBy(alerts, ({ kind }) => kind)]
    .map(([kind, ofKind]) => ({
      kind,
      raised: { count: ofKind.length, of: alerts.length, percent: (100 * ofKind.length) / alerts.length },
      neverActedOn: neverActedOn(ofKind),
    }))
    .toSorted((a, b) => b.raised.count - a.raised.count || a.kind.localeCompare(b.kind));
}
