const STEPS = [1, 2, 5, 10];
const MOST_TICKS = 6;

/**
 * Round values for an axis, from at or below the least to at or above the most that is drawn: steps of 1, 2 or 5 times a
 * power of ten, so that what lies between two lines is read without a sum.
 * @param leastStep no step is smaller, also where all values are alike
 */
export function roundTicks(values: readonly number[], leastStep: number): readonly number[] {
  const least = Math.min(...values);
  const most = Math.max(...values);
  const raw = Math.max(leastStep, (most - least) / (MOST_TICKS - 2));
  const power = 10 ** Math.floor(Math.log10(raw));
  const step = power * (STEPS.find((times) => times * power >= raw) ?? 10);
  const from = Math.floor(least / step);
  const to = Math.max(from + 1, Math.ceil(most / step));
  return Array.from({ length: to - from + 1 }, (_, index) => (from + index) * step);
}
