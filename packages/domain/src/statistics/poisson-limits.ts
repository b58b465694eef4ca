import { type Computed, computed, unlessRefused } from '../units/computed.ts';
import { checkNumbers } from '../units/ranges.ts';
import { CONFIDENCE, CONFIDENCE_RANGE, type Limits } from './limits.ts';
import { chiSquareQuantile } from './quantile.ts';

/** A count that a ward or a region can meet; also keeps the search for the limits short. */
const MOST_EVENTS = 1_000_000;

/**
 * Exact limits of a Poisson count: lower ½·χ²(α/2; 2k), upper ½·χ²(1 − α/2; 2k + 2).
 * They assume that events come independently; clustering within patients makes the true limits wider.
 * Source: Garwood, Biometrika 1936;28:437.
 * @param count events, whole, 0 to 1,000,000
 * @returns limits of the count, or the problem
 */
export const exactPoissonLimits = (count: number, confidence: number = CONFIDENCE): Computed<Limits> =>
  unlessRefused(
    checkNumbers(
      { count, confidence },
      { count: { least: 0, most: MOST_EVENTS, unit: 'events', whole: true }, confidence: CONFIDENCE_RANGE },
    ),
    () => {
      const tail = (1 - confidence) / 2;
      return computed({
        estimate: count,
        lower: count === 0 ? 0 : chiSquareQuantile(tail, 2 * count) / 2,
        upper: chiSquareQuantile(1 - tail, 2 * count + 2) / 2,
      });
    },
  );

/**
 * A rate per unit of person-time with exact Poisson limits.
 * @param count events, whole
 * @param personTime in the unit that the rate is wanted per (patient-years, patient-months); more than 0
 */
export const exactRate = (count: number, personTime: number, confidence: number = CONFIDENCE): Computed<Limits> => {
  const range = { least: 0, most: Number.POSITIVE_INFINITY, unit: '', moreThanLeast: true } as const;
  return unlessRefused(checkNumbers({ personTime }, { personTime: range }), () => {
    const limits = exactPoissonLimits(count, confidence);
    if (limits.value === null) return limits;
    const { estimate, lower, upper } = limits.value;
    return computed({ estimate: estimate / personTime, lower: lower / personTime, upper: upper / personTime });
  });
};
