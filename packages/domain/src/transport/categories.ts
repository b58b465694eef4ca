import type { Problem } from '../record/problem.ts';
import { type Computed, computed, refused, unlessRefused } from '../units/computed.ts';
import { checkNumber } from '../units/ranges.ts';

export type TransportCategory = 'fast' | 'fastAverage' | 'slowAverage' | 'slow';

/** Both names in use, always printed together. */
export const CATEGORY_NAMES: Record<TransportCategory, string> = {
  fast: 'fast (high)',
  fastAverage: 'fast average (high average)',
  slowAverage: 'slow average (low average)',
  slow: 'slow (low)',
};

export type CategoryBand = { category: TransportCategory; from: number; to: number };

/**
 * Bands of the 4 h test with 2.27 % glucose: mean ± 1 SD, with the range seen as outer ends.
 * Source: Twardowski et al., Perit Dial Bull 1987;7:138 (from memory; other prints differ by 0.01: a setting).
 */
export const CREATININE_BANDS: readonly CategoryBand[] = [
  { category: 'fast', from: 0.82, to: 1.03 },
  { category: 'fastAverage', from: 0.65, to: 0.81 },
  { category: 'slowAverage', from: 0.5, to: 0.64 },
  { category: 'slow', from: 0.34, to: 0.49 },
];

/** D/D0 glucose: a fast membrane leaves little glucose behind. Source as above. */
export const GLUCOSE_BANDS: readonly CategoryBand[] = [
  { category: 'fast', from: 0.12, to: 0.25 },
  { category: 'fastAverage', from: 0.26, to: 0.38 },
  { category: 'slowAverage', from: 0.39, to: 0.49 },
  { category: 'slow', from: 0.5, to: 0.61 },
];

/** Halves of a hundredth go up; the small term undoes the binary form of 0.815 and its like. */
const toHundredths = (ratio: number): number => Math.round(ratio * 100 + 1e-9) / 100;

/**
 * Category of a ratio.
 * **Edge rule**: the bands are printed with two decimals, so the ratio is rounded to two decimals first, half up, and
 * then falls into exactly one band (0.645 → 0.65 fast average; 0.815 → 0.82 fast).
 * @param field what the ratio is, for the problem
 * @returns the category, or the problem: not a number, or outside everything the table has seen
 */
export const categoryOf = (
  field: string,
  ratio: number,
  bands: readonly CategoryBand[],
): Computed<TransportCategory> => {
  const most = Math.max(...bands.map((band) => band.to));
  const least = Math.min(...bands.map((band) => band.from));
  const anyRatio = { least: 0, most: Number.MAX_VALUE, unit: '' };
  return unlessRefused(checkNumber(field, ratio, anyRatio), () => {
    const rounded = toHundredths(ratio);
    const band = bands.find(({ from, to }) => rounded >= from && rounded <= to);
    return band ? computed(band.category) : refused(outside(field, ratio, least, most));
  });
};

const outside = (field: string, ratio: number, least: number, most: number): Problem => ({
  code: 'outside-table',
  field,
  value: ratio,
  allowed: `${least} to ${most}`,
  message: `${field} ${ratio.toFixed(3)} lies outside all that the table has seen (${least} to ${most}): repeat the test`,
});
