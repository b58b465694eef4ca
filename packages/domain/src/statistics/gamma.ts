/** Coefficients of Lanczos' approximation with g = 607/128, n = 15 (P. Godfrey): relative error about 1e-15. */
const LANCZOS_G = 607 / 128;
const LANCZOS = [
  0.9999999999999971, 57.15623566586292, -59.59796035547549, 14.136097974741746, -0.4919138160976202,
  0.00003399464998481189, 0.00004652362892704858, -0.00009837447530487956, 0.0001580887032249125,
  -0.00021026444172410488, 0.00021743961811521265, -0.0001643181065367639, 0.00008441822398385275,
  -0.000026190838401581408, 0.0000036899182659531625,
] as const;

const HALF_LOG_TWO_PI = 0.5 * Math.log(2 * Math.PI);

/** ln Γ(x) for x > 0 (Lanczos 1964). NaN elsewhere. */
export const logGamma = (x: number): number => {
  if (!(x > 0)) return Number.NaN;
  const sum = LANCZOS.slice(1).reduce<number>((total, c, i) => total + c / (x + i), LANCZOS[0]);
  const base = x + LANCZOS_G - 0.5;
  return (x - 0.5) * Math.log(base) - base + HALF_LOG_TWO_PI + Math.log(sum);
};

const MOST_TERMS = 100_000;
const SMALLEST_STEP = 1e-16;
/** Keeps the continued fraction from dividing by zero (modified Lentz). */
const TINY = 1e-300;

/**
 * The regularised incomplete gamma functions, both, since the smaller one is the accurate one:
 * `lower` = P(a, x), `upper` = Q(a, x) = 1 − P. Series for x < a + 1, continued fraction above
 * (Abramowitz & Stegun 6.5.29, 6.5.31).
 * @param a shape, > 0
 * @param x ≥ 0
 */
export const incompleteGamma = (a: number, x: number): { lower: number; upper: number } => {
  if (!(a > 0) || !(x >= 0)) return { lower: Number.NaN, upper: Number.NaN };
  if (x === 0) return { lower: 0, upper: 1 };
  if (x === Number.POSITIVE_INFINITY) return { lower: 1, upper: 0 };
  const scale = Math.exp(a * Math.log(x) - x - logGamma(a));
  if (x < a + 1) {
    const lower = Math.min(1, scale * series(a, x));
    return { lower, upper: 1 - lower };
  }
  const upper = Math.min(1, scale * continuedFraction(a, x));
  return { lower: 1 - upper, upper };
};

const series = (a: number, x: number): number => {
  let term = 1 / a;
  let sum = term;
  for (let n = 1; n < MOST_TERMS; n += 1) {
    term *= x / (a + n);
    sum += term;
    if (term < sum * SMALLEST_STEP) break;
  }
  return sum;
};

const continuedFraction = (a: number, x: number): number => {
  let b = x + 1 - a;
  let c = 1 / TINY;
  let d = 1 / b;
  let fraction = d;
  for (let n = 1; n < MOST_TERMS; n += 1) {
    const numerator = -n * (n - a);
    b += 2;
    d = 1 / nonZero(numerator * d + b);
    c = nonZero(b + numerator / c);
    const step = d * c;
    fraction *= step;
    if (Math.abs(step - 1) < SMALLEST_STEP) break;
  }
  return fraction;
};

const nonZero = (x: number): number => (Math.abs(x) < TINY ? TINY : x);
