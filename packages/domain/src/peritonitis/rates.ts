import type { Limits } from '../statistics/limits.ts';
import { exactRate } from '../statistics/poisson-limits.ts';
import { type Computed, computed, refused, unlessRefused } from '../units/computed.ts';
import { checkNumber } from '../units/ranges.ts';

/** How days become years and months (ISPD-based reference appendix). */
export const DAYS_PER_YEAR = 365;
export const DAYS_PER_MONTH = 30.4;

export type Rate = {
  episodes: number;
  patientDays: number;
  /** Episodes per patient-year with exact limits, which assume no clustering within patients. */
  perYear: Limits;
  /** "One in … patient-months"; null without an episode. */
  monthsPerEpisode: number | null;
};

/**
 * A rate of peritonitis, or of exit-site infection.
 * @param episodes counted ones (no relapses), whole
 * @param patientDays days at risk; more than 0
 */
export const infectionRate = (episodes: number, patientDays: number): Computed<Rate> => {
  const range = { least: 0, most: Number.POSITIVE_INFINITY, unit: 'days', moreThanLeast: true } as const;
  return unlessRefused(checkNumber('patientDays', patientDays, range), () => {
    const perYear = exactRate(episodes, patientDays / DAYS_PER_YEAR);
    if (perYear.value === null) return perYear;
    return computed<Rate>({
      episodes,
      patientDays,
      perYear: perYear.value,
      monthsPerEpisode: episodes === 0 ? null : patientDays / DAYS_PER_MONTH / episodes,
    });
  });
};

/** A rate per year from "one in so many patient-months". */
export const perYearFromMonthsPerEpisode = (months: number): Computed<number> =>
  unlessRefused(checkNumber('months', months, { least: 0, most: 10_000, unit: 'months', moreThanLeast: true }), () =>
    computed(12 / months),
  );

/** ISPD 2022: at most 0.40 episodes per patient-year of a programme; ISPD 2023, from memory: the same for exit sites. */
export const PERITONITIS_TARGET_PER_YEAR = 0.4;
export const EXIT_SITE_TARGET_PER_YEAR = 0.4;

/** Whose days stand under the rate: a programme's (home and hospital), or only those spent on the ward. */
export type Denominator = 'programme' | 'ward';

/** How a rate stands to the target; `withinLimits`: the target lies between the limits, so nothing is shown either way. */
export type TargetVerdict = 'under' | 'over' | 'withinLimits';

/**
 * Holds a programme's rate against the target. A ward's own days are the wrong denominator (30 admissions *for*
 * peritonitis on 24 beds would read 1.47), so with them there is no verdict.
 */
export const rateAgainstTarget = (
  rate: Rate,
  denominator: Denominator,
  targetPerYear: number = PERITONITIS_TARGET_PER_YEAR,
): Computed<TargetVerdict> => {
  if (denominator === 'ward') {
    return refused({
      code: 'wrong-denominator',
      field: 'denominator',
      value: denominator,
      allowed: 'programme: start and stop of dialysis of every patient, home and hospital',
      message: "The target is a programme's: it is not held against the days of a ward",
    });
  }
  const { lower, upper } = rate.perYear;
  return computed(upper <= targetPerYear ? 'under' : lower > targetPerYear ? 'over' : 'withinLimits');
};
