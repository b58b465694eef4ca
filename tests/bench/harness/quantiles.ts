/** The value below which a share of the samples lies, between neighbours by proportion. @param share 0 to 1 */
export function quantile(samples: readonly number[], share: number): number {
  if (samples.length === 0) throw new Error('There are no samples to take a quantile of.');
  const sorted = samples.toSorted((a, b) => a - b);
  const place = share * (sorted.length - 1);
  const below = Math.floor(place);
  const low = sorted[below]!;
  const high = sorted[Math.min(below + 1, sorted.length - 1)]!;
  return low + (high - low) * (place - below);
}

export const median = (samples: readonly number[]): number => quantile(samples, 0.5);

export const quartiles = (samples: readonly number[]): readonly [number, number] => [
  quantile(samples, 0.25),
  quantile(samples, 0.75),
];
