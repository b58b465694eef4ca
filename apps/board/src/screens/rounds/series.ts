import type { RoundsView } from '@slackwater/contract';
import type { Dwell, EpochMs, Solution } from '@slackwater/domain';
import { isComplete, otherFluidsMl } from '@slackwater/domain/balance/balance';
import { solutionOf } from '@slackwater/domain/solution/formulary';

type Day = RoundsView['days'][number];

/** A ward day as it is drawn. A day that is incomplete has no bar: `removedMl` is null, never zero. */
export type DayPoint = {
  date: string;
  removedMl: number | null;
  exchanges: number;
  /** What is missing, in words for the table; null when nothing is. */
  missing: string | null;
  /** The ward day is not over: its figure counts so far, and in no mean. */
  underWay: boolean;
  /** In − out of the other fluids, mL; null = nobody recorded any. */
  otherMl: number | null;
  weightKg: number | null;
  weightCavity: 'full' | 'empty' | null;
};

/** The ward days with the last weight of each, by the ward's day and not the calendar's; a day without a weight has none. */
export const dayPoints = (days: readonly Day[], weights: RoundsView['weights'], now: EpochMs): readonly DayPoint[] =>
  days.map(({ date, balance }) => {
    const weight = weights.findLast(({ at }) => at >= balance.from && at < balance.to);
    const missing = balance.missing.length + balance.missingEarlier;
    return {
      date,
      removedMl: isComplete(balance) && balance.exchanges > 0 ? balance.removedMl : null,
      exchanges: balance.exchanges,
      missing: isComplete(balance) ? (balance.exchanges === 0 ? 'no exchange' : null) : `${missing} without a volume`,
      underWay: balance.to > now,
      otherMl: otherFluidsMl(balance),
      weightKg: weight?.weightKg ?? null,
      weightCavity: weight?.cavity ?? null,
    };
  });

/** One drained dwell as it is drawn. */
export type DwellPoint = {
  id: string;
  at: EpochMs;
  strength: string;
  removedMl: number | null;
  expectedMl: number | null;
  complete: boolean;
};

export const dwellPoints = (dwells: readonly Dwell[], formulary: readonly Solution[]): readonly DwellPoint[] =>
  dwells.flatMap((dwell) =>
    dwell.drainedAt === null
      ? []
      : [
          {
            id: dwell.id,
            at: dwell.drainedAt,
            strength: solutionOf(formulary, dwell.fills.at(-1)?.solutionId ?? null)?.strength ?? 'not known',
            removedMl: dwell.drainMinusFillMl,
            expectedMl: dwell.expectedUfMl,
            complete: dwell.complete,
          },
        ],
  );

/** The mean of the last complete days that are over; null when there are none. */
export const meanRemoved = (points: readonly DayPoint[], days: number): { meanMl: number; of: number } | null => {
  const complete = points.filter((point) => point.removedMl !== null && !point.underWay).slice(-days);
  if (complete.length === 0) return null;
  return {
    meanMl: complete.reduce((sum, point) => sum + (point.removedMl ?? 0), 0) / complete.length,
    of: complete.length,
  };
};
