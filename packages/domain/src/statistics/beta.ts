import { logGamma } from './gamma.ts';

const MOST_TERMS = 100_000;
const SMALLEST_STEP = 1e-16;
const TINY = 1e-300;

/**
 * The regularised incomplete beta function I_x(a, b), with its complement: the smaller one is the accurate one.
 * Continued fraction (Abramowitz & Stegun 26.5.8), on the side where it converges quickly.
 * @param x 0 to 1
 * @param a > 0
 * @param b > 0
 */
export const incompleteBeta = (x: number, a: number, b: number): { lower: number; upper: number } => {
  if (!(a > 0) || !(b > 0) || !(x >= 0 && x <= 1)) return { lower: Number.NaN, upper: Number.NaN };
  if (x === 0) return { lower: 0, upper: 1 };
  if (x === 1) return { lower: 1, upper: 0 };
  const scale = Math.exp(a * Math.log(x) + b * Math.log1p(-x) + logGamma(a + b) - logGamma(a) - logGamma(b));
  if (x < (a + 1) / (a + b + 2)) {
    const lower = (scale * continuedFraction(x, a, b)) / a;
    return { lower, upper: 1 - lower };
  }
  const upper = (scale * continuedFraction(1 - x, b, a)) / b;
  return { lower: 1 - upper, upper };
};

const continuedFraction = (x: number, a: number, b: number): number => {
  let c = 1;
  let d = 1 / nonZero(1 - ((a + b) * x) / (a + 1));
  let fraction = d;
  for (let m = 1; m < MOST_TERMS; m += 1) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / nonZero(1 + even * d);
    c = nonZero(1 + even / c);
    fraction *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / nonZero(1 + odd * d);
    c = nonZero(1 + odd / c);
    const step = d * c;
    fraction *= step;
    if (Math.abs(step - 1) < SMALLEST_STEP) break;
  }
  return fraction;
};

const nonZero = (x: number): number => (Math.abs(x) < TINY ? TINY : x);
