/**
 * Quantile of a sample by linear interpolation between order statistics (type 7 of Hyndman & Fan, Am Stat 1996;50:361).
 * @param values any order; not changed
 * @param share 0 to 1
 * @returns null for an empty sample
 */
export const sampleQuantile = (values: readonly number[], share: number): number | null => {
  if (values.length === 0) return null;
  const sorted = [...values].sort((a, b) => a - b);
  const at = (sorted.length - 1) * Math.min(1, Math.max(0, share));
  const below = sorted[Math.floor(at)]!;
  const above = sorted[Math.ceil(at)]!;
  return below + (above - below) * (at - Math.floor(at));
};

/** The middle value; the mean of the two middle ones for an even number; null for none. */
export const median = (values: readonly number[]): number | null => sampleQuantile(values, 0.5);

/** Lower quartile, median, upper quartile; null for an empty sample. */
export const quartiles = (values: readonly number[]): { lower: number; median: number; upper: number } | null =>
  values.length === 0
    ? null
    : {
        lower: sampleQuantile(values, 0.25)!,
        median: sampleQuantile(values, 0.5)!,
        upper: sampleQuantile(values, 0.75)!,
      };
