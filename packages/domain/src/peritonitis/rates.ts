import type { Limits } from '../statistics/limits.ts';
import { exactRate } from '../statistics/poisson-limits.ts';
import { type Computed, computed, unlessRefused } from '../units/computed.ts';
import { checkNumber } from '../units/ranges.ts';

/** How days become years and months (ISPD-based reference appendix). */
const DAYS_PER_YEAR = 365;
const DAYS_PER_MONTH = 30.4;

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
