import type { IsoDate } from '../time/zone.ts';
import { type Computed, computed, unlessRefused } from '../units/computed.ts';
import { checkDate, dayNumber } from '../units/dates.ts';
import { checkNumber, type Range } from '../units/ranges.ts';
import { CELL_LIMITS } from './criteria.ts';

const COUNT: Range = { least: 0, most: 1_000_000, unit: '/µL' };

/** At or above this on day 3 the risk of catheter loss or death was about nine times. Chow, CJASN 2006;1:768. */
export const DAY_3_HIGH_PER_UL = 1090;

/** What the count of day 3 says. */
export const dayThreeSays = (whiteCellsPerUl: number): Computed<{ high: boolean; aboutTimesTheRisk: number | null }> =>
  unlessRefused(checkNumber('whiteCellsPerUl', whiteCellsPerUl, COUNT), () => {
    const high = whiteCellsPerUl >= DAY_3_HIGH_PER_UL;
    return computed({ high, aboutTimesTheRisk: high ? 9 : null });
  });

/** Failure of treatment by the count of day 5, in a cohort of 549 episodes. */
const DAY_5_BANDS = [
  { fromPerUl: 0, failurePercent: 5.7 },
  { fromPerUl: 100, failurePercent: 26.9 },
  { fromPerUl: 2000, failurePercent: 46.7 },
] as const;

/** How often treatment failed in that cohort among episodes with such a count on day 5, percent. */
export const dayFiveFailurePercent = (whiteCellsPerUl: number): Computed<number> =>
  unlessRefused(checkNumber('whiteCellsPerUl', whiteCellsPerUl, COUNT), () =>
    computed(DAY_5_BANDS.findLast((band) => whiteCellsPerUl >= band.fromPerUl)!.failurePercent),
  );

export type DatedCount = { on: IsoDate; whiteCellsPerUl: number };

export type Clearing = {
  /** Days of appropriate antibiotic by then. */
  days: number;
  /** `refractory`: not clear after five days. It is a statement about the effluent and not an instruction. */
  state: 'tooEarly' | 'cleared' | 'refractory' | 'notKnown';
  /** The last count is lower than the one before: watching longer is right while it falls towards normal. */
  falling: boolean | null;
};

/** Days of appropriate antibiotic after which an effluent that is not clear is refractory (ISPD 2022, from memory). */
export const REFRACTORY_AFTER_DAYS = 5;

/**
 * Whether the effluent is clearing.
 * @param appropriateSince first day of an antibiotic that the organism answers to
 * @param counts any order
 * @param cloudyNow null = nobody looked
 */
export const clearing = (
  appropriateSince: IsoDate,
  today: IsoDate,
  counts: readonly DatedCount[],
  cloudyNow: boolean | null,
): Computed<Clearing> =>
  unlessRefused(
    [
      ...checkDate('appropriateSince', appropriateSince),
      ...checkDate('today', today, { from: appropriateSince }),
      ...counts.flatMap((count, i) => [
        ...checkDate(`counts[${i}].on`, count.on, { to: today }),
        ...checkNumber(`counts[${i}].whiteCellsPerUl`, count.whiteCellsPerUl, COUNT),
      ]),
    ],
    () => {
      const days = dayNumber(today) - dayNumber(appropriateSince);
      const [before, last] = lastTwo(counts);
      return computed<Clearing>({
        days,
        state: stateOf(days, last, cloudyNow),
        falling: before && last ? last.whiteCellsPerUl < before.whiteCellsPerUl : null,
      });
    },
  );

const lastTwo = (counts: readonly DatedCount[]): readonly [DatedCount | undefined, DatedCount | undefined] => {
  const ordered = [...counts].sort((a, b) => (a.on < b.on ? -1 : 1));
  return [ordered.at(-2), ordered.at(-1)];
};

const stateOf = (days: number, last: DatedCount | undefined, cloudyNow: boolean | null): Clearing['state'] => {
  const countHigh = last ? last.whiteCellsPerUl > CELL_LIMITS.whiteCellsAbovePerUl : null;
  if (cloudyNow === false && countHigh === false) return 'cleared';
  if (days < REFRACTORY_AFTER_DAYS) return 'tooEarly';
  return cloudyNow === true || countHigh === true ? 'refractory' : 'notKnown';
};
