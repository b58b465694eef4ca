import { incompleteBeta } from './beta.ts';
import { incompleteGamma } from './gamma.ts';

/**
 * Quantile of the chi-square distribution: the x below which a share `p` lies.
 * @param p 0 to 1
 * @param degreesOfFreedom > 0
 * @returns x ≥ 0, to about 1e-13 relative; 0 at p = 0, Infinity at p = 1, NaN outside
 */
export const chiSquareQuantile = (p: number, degreesOfFreedom: number): number => {
  if (!(p >= 0 && p <= 1) || !(degreesOfFreedom > 0)) return Number.NaN;
  if (p === 1) return Number.POSITIVE_INFINITY;
  const shape = degreesOfFreedom / 2;
  let most = shape + 1;
  while (incompleteGamma(shape, most).lower < p) most *= 2;
  return 2 * whereItCrosses(p, (x) => incompleteGamma(shape, x), most);
};

/**
 * Quantile of the beta distribution.
 * @param p 0 to 1
 * @param a > 0
 * @param b > 0
 * @returns 0 to 1, to about 1e-13; NaN outside
 */
export const betaQuantile = (p: number, a: number, b: number): number => {
  if (!(p >= 0 && p <= 1) || !(a > 0) || !(b > 0)) return Number.NaN;
  return whereItCrosses(p, (x) => incompleteBeta(x, a, b), 1);
};

/**
 * Quantile of Student's t distribution, by the beta quantile: with t² = ν(1 − x)/x, x follows Beta(ν/2, ½)
 * (Abramowitz & Stegun 26.7.1).
 * @param p 0 to 1
 * @param degreesOfFreedom > 0, need not be whole
 * @returns negative below p = ½; ±Infinity at the ends; NaN outside
 */
export const studentQuantile = (p: number, degreesOfFreedom: number): number => {
  if (!(p >= 0 && p <= 1) || !(degreesOfFreedom > 0)) return Number.NaN;
  if (p === 0.5) return 0;
  const tail = Math.min(p, 1 - p);
  const x = betaQuantile(2 * tail, degreesOfFreedom / 2, 0.5);
  const t = Math.sqrt((degreesOfFreedom * (1 - x)) / x);
  return p < 0.5 ? -t : t;
};

/** Enough halvings to reach the last bit of a double from any start. */
const MOST_HALVINGS = 1_200;

/**
 * Bisection on the side of the distribution that is accurate (the upper tail for p > ½): slower than Newton's method
 * and never wrong, and a ward asks for a handful of limits at a time.
 */
const whereItCrosses = (p: number, tails: (x: number) => { lower: number; upper: number }, most: number): number => {
  const isBelow = p > 0.5 ? (x: number) => tails(x).upper > 1 - p : (x: number) => tails(x).lower < p;
  let low = 0;
  let high = most;
  for (let n = 0; n < MOST_HALVINGS; n += 1) {
    const middle = low + (high - low) / 2;
    if (middle <= low || middle >= high) break;
    if (isBelow(middle)) low = middle;
    else high = middle;
  }
  return p === 0 ? 0 : low + (high - low) / 2;
};
