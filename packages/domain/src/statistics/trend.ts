import type { EpochMs } from '../time/instant.ts';
import { kendallTwoSidedP } from './kendall.ts';
import { median } from './median.ts';

export type TrendPoint = { at: EpochMs; value: number };

export type Trend = {
  /** Median of the slopes between all pairs (Theil–Sen), per day. */
  slopePerDay: number;
  /** Two-sided p of Mann–Kendall's test. */
  p: number;
  /** What a sentence may say: "no trend" is said unless p ≤ 0.05. */
  direction: 'rising' | 'falling' | 'noTrend';
  points: number;
};

/** With fewer points the exact test cannot reach p ≤ 0.05 (four in order: p = 0.083). */
const LEAST_POINTS = 5;
const DAY_MS = 86_400_000;
const SIGNIFICANT = 0.05;

/**
 * The trend of a series for the sentence over its chart: robust against single odd values and uneven spacing.
 * Sources: Theil 1950; Sen, J Am Stat Assoc 1968;63:1379; Mann 1945; Kendall 1975.
 * @returns null with fewer than five points or no spread in time: then nothing is said about a trend
 */
export const trendOf = (points: readonly TrendPoint[]): Trend | null => {
  if (points.length < LEAST_POINTS) return null;
  const ordered = [...points].sort((a, b) => a.at - b.at);
  const slopes: number[] = [];
  let s = 0;
  ordered.forEach((early, i) => {
    for (const late of ordered.slice(i + 1)) {
      if (late.at === early.at) continue;
      slopes.push(((late.value - early.value) / (late.at - early.at)) * DAY_MS);
      s += Math.sign(late.value - early.value);
    }
  });
  const slopePerDay = median(slopes);
  if (slopePerDay === null) return null;
  const p = kendallTwoSidedP(
    s,
    ordered.map((point) => point.value),
  );
  const direction = p > SIGNIFICANT || slopePerDay === 0 ? 'noTrend' : slopePerDay > 0 ? 'rising' : 'falling';
  return { slopePerDay, p, direction, points: points.length };
};
