/** Far more than halving alone would need. */
const MOST_STEPS = 100;

/**
 * The root of a continuous function between two ends of opposite sign (Chandrupatla 1997:
 * inverse quadratic where that is safe, else halving). Never leaves the bracket.
 * @param within half-width of the answer, > 0, in the unit of x
 * @param fLow, fHigh f at the two ends, of opposite sign or zero
 */
export function rootBetween(
  f: (x: number) => number,
  low: number,
  high: number,
  fLow: number,
  fHigh: number,
  within: number,
): number {
  let [a, fa, b, fb] = [high, fHigh, low, fLow];
  let [c, fc] = [a, fa];
  let share = 0.5;
  for (let step = 0; step < MOST_STEPS; step++) {
    const x = a + share * (b - a);
    const fx = f(x);
    if (Math.sign(fx) === Math.sign(fa)) [c, fc] = [a, fa];
    else [c, fc, b, fb] = [b, fb, a, fa];
    [a, fa] = [x, fx];
    const best = Math.abs(fa) < Math.abs(fb) ? a : b;
    const tolerance = within / Math.abs(b - a);
    if (tolerance > 0.5 || fa === 0) return best;
    share = Math.min(1 - tolerance, Math.max(tolerance, safeShare(a, fa, b, fb, c, fc)));
  }
  return a;
}

/** Where the inverse parabola through the last three points crosses zero, as a share of the way from a to b. */
function safeShare(a: number, fa: number, b: number, fb: number, c: number, fc: number): number {
  const xi = (a - b) / (c - b);
  const phi = (fa - fb) / (fc - fb);
  const isSafe = phi ** 2 < xi && (1 - phi) ** 2 < 1 - xi;
  if (!isSafe) return 0.5;
  return (fa / (fb - fa)) * (fc / (fb - fc)) + ((c - a) / (b - a)) * (fa / (fc - fa)) * (fb / (fc - fb));
}
