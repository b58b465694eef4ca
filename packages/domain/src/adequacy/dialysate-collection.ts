import type { FillInside } from '../cavity/cavity.ts';
import type { DrainOut, Dwell } from '../dwell/dwell.ts';
import type { Problem } from '../record/problem.ts';
import type { EpochMs } from '../time/instant.ts';
import { HOUR_MS } from '../time/instant.ts';
import { type Computed, computed, unlessRefused } from '../units/computed.ts';
import { checkNumber } from '../units/ranges.ts';

type CollectedDrain = Pick<DrainOut, 'entryId' | 'startedAt' | 'drainedMl'>;

/** As much of a dwell as a collection is made from. */
export type Collected = Pick<Dwell, 'id' | 'drainedAt' | 'filledMl'> & {
  fills: readonly Pick<FillInside, 'endedAt' | 'revisionId'>[];
  drains: readonly CollectedDrain[];
};

/** What a day's dialysate amounts to. */
export type DialysateCollection = {
  /** Mixed and sampled, flush included where it went into the sample, mL: the volume of the solutes. */
  sampledMl: number;
  /** The same without any flush, mL: the volume of ultrafiltration. */
  drainedMl: number;
  filledMl: number;
  /** drained − filled, mL. */
  drainMinusFillMl: number;
  hours: number;
  drains: number;
};

export type CollectionPeriod = {
  /** End of the drain that was discarded: what the collection starts from. */
  from: EpochMs;
  /** End of the last drain that was collected. */
  to: EpochMs;
  /** IANA zone of the ward: a clock change within the period is said, the hours are elapsed hours. */
  zone: string;
};

const HOURS = { least: 20, most: 28, unit: 'h' } as const;

/**
 * Gathers a collection from recorded dwells, never from typed sums.
 *
 * Flush: solute mass = concentration × the volume that was mixed and sampled, so flush that ran into a sampled bag
 * belongs to that volume; ultrafiltration is told without it. Mixing the two up understates Kt/V by 4 %.
 * @param dwells of the patient; those drained within (from, to] count
 * @param flushInSampleMl mL of flush that was in the bag of a drain when its sample was taken; null = nobody said
 * @returns the volumes, or which drain or fill is missing: a collection with a gap has no number; a collection over two
 * prescriptions describes neither
 */
export const collectDialysate = (
  dwells: readonly Collected[],
  period: CollectionPeriod,
  flushInSampleMl: (drain: CollectedDrain) => number | null,
): Computed<DialysateCollection> => {
  const { from, to } = period;
  const hours = (to - from) / HOUR_MS;
  const inside = dwells.filter((dwell) => isCollected(dwell, period));
  const drains = inside.flatMap((dwell) => dwell.drains);
  const problems = [
    ...checkNumber('hours', hours, HOURS),
    ...(inside.length === 0 ? [nothingDrained(period)] : []),
    ...dwells.filter((dwell) => isStillInside(dwell, period)).map(notDrained),
    ...inside.flatMap((dwell) => dwellProblems(dwell, from)),
    ...drains.flatMap((drain) => flushProblems(drain, flushInSampleMl(drain))),
    ...prescriptionProblems(inside),
  ];
  return unlessRefused(problems, () => {
    const drainedMl = sum(drains.map((drain) => drain.drainedMl!));
    const filledMl = sum(inside.map((dwell) => dwell.filledMl!));
    const flushMl = sum(drains.map((drain) => flushInSampleMl(drain)!));
    return computed(
      {
        sampledMl: drainedMl + flushMl,
        drainedMl,
        filledMl,
        drainMinusFillMl: drainedMl - filledMl,
        hours,
        drains: drains.length,
      },
      clockChange(period, hours),
    );
  });
};

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);

const isCollected = (dwell: Collected, { from, to }: CollectionPeriod): boolean =>
  dwell.drainedAt !== null && dwell.drainedAt > from && dwell.drainedAt <= to;

/** Filled before the end and not drained by then: its solutes are missing from the collection. */
const isStillInside = (dwell: Collected, { from, to }: CollectionPeriod): boolean => {
  const filledAt = dwell.fills[0]?.endedAt ?? null;
  const drainedWithin = dwell.drainedAt !== null && dwell.drainedAt <= to;
  return filledAt !== null && filledAt > from && filledAt < to && !drainedWithin;
};

const utc = (at: EpochMs): string => new Date(at).toISOString().slice(0, 16).concat('Z');

const missing = (code: string, field: string, at: EpochMs, entryId: string, message: string): Problem => ({
  code,
  field,
  value: { at, entryId },
  allowed: 'every drain of the collection with its volume',
  message,
});

const notDrained = (dwell: Collected): Problem => {
  const filledAt = dwell.fills[0]!.endedAt!;
  return missing('not-drained', 'dwell', filledAt, dwell.id, `What was filled at ${utc(filledAt)} was not drained`);
};

const dwellProblems = (dwell: Collected, from: EpochMs): readonly Problem[] => {
  const filledAt = dwell.fills[0]?.endedAt ?? null;
  return [
    ...(filledAt !== null && filledAt < from
      ? [
          missing(
            'filled-before',
            'from',
            filledAt,
            dwell.id,
            `The fill of ${utc(filledAt)} lies before the collection: start it with the drain that was discarded`,
          ),
        ]
      : []),
    ...dwell.drains
      .filter((drain) => drain.drainedMl === null)
      .map((drain) =>
        missing(
          'drain-not-measured',
          'drainedMl',
          drain.startedAt,
          drain.entryId,
          `The drain that started at ${utc(drain.startedAt)} has no volume`,
        ),
      ),
    ...(dwell.filledMl === null
      ? [missing('fill-not-known', 'filledMl', dwell.drainedAt!, dwell.id, 'A fill of the collection has no volume')]
      : []),
  ];
};

const flushProblems = (drain: CollectedDrain, flushMl: number | null): readonly Problem[] =>
  checkNumber('flushInSampleMl', flushMl, { least: 0, most: 500, unit: 'mL' }).map((problem) => ({
    ...problem,
    value: { at: drain.startedAt, entryId: drain.entryId, flushMl },
    message: `${problem.message} (drain that started at ${utc(drain.startedAt)})`,
  }));

const prescriptionProblems = (dwells: readonly Collected[]): readonly Problem[] => {
  const revisions = new Set(dwells.flatMap((dwell) => dwell.fills.map((fill) => fill.revisionId)));
  if (revisions.size <= 1) return [];
  return [
    {
      code: 'prescription-changed',
      field: 'revisionId',
      value: [...revisions],
      allowed: 'one prescription for the whole collection',
      message: 'The prescription changed within the collection: it describes neither',
    },
  ];
};

const nothingDrained = ({ from, to }: CollectionPeriod): Problem => ({
  code: 'nothing-drained',
  field: 'dwells',
  value: { from, to },
  allowed: 'at least one drain within the collection',
  message: `No drain ended between ${utc(from)} and ${utc(to)}`,
});

const clockChange = ({ from, to, zone }: CollectionPeriod, hours: number): readonly Problem[] => {
  const offset = (at: EpochMs): string => Temporal.Instant.fromEpochMilliseconds(at).toZonedDateTimeISO(zone).offset;
  if (offset(from) === offset(to)) return [];
  return [
    {
      code: 'clock-changed',
      field: 'hours',
      value: hours,
      allowed: '20 to 28 h, elapsed',
      message: `The clocks changed within the collection: it lasted ${hours.toFixed(2)} elapsed hours, which are used`,
    },
  ];
};
