import { incompleteGamma } from './gamma.ts';

/** Above this many values the normal approximation is used: it is then within 0.002 of the exact one. */
const MOST_EXACT = 60;

/**
 * Two-sided p of Mann–Kendall's S: how often values without any trend would be ordered at least so much.
 * Exact (counts of permutations by inversions) without ties and up to 60 values, else the normal approximation with
 * correction for ties and continuity. Sources: Mann, Econometrica 1945;13:245; Kendall, Rank Correlation Methods 1975.
 */
export const kendallTwoSidedP = (s: number, values: readonly number[]): number => {
  if (s === 0) return 1;
  const n = values.length;
  const tied = new Set(values).size < n;
  return tied || n > MOST_EXACT ? normalP(s, values) : exactP(Math.abs(s), n);
};

/** Share of all permutations of n whose |S| is at least `s`: distribution of inversions, S = n(n−1)/2 − 2·inversions. */
const exactP = (s: number, n: number): number => {
  let shares = [1];
  for (let size = 2; size <= n; size += 1) {
    const next = new Array<number>(shares.length + size - 1).fill(0);
    shares.forEach((share, inversions) => {
      for (let more = 0; more < size; more += 1) next[inversions + more]! += share / size;
    });
    shares = next;
  }
  const most = (n * (n - 1)) / 2;
  const tail = shares.reduce((sum, share, inversions) => (most - 2 * inversions >= s ? sum + share : sum), 0);
  return Math.min(1, 2 * tail);
};

const normalP = (s: number, values: readonly number[]): number => {
  const n = values.length;
  const groups = new Map<number, number>();
  for (const value of values) groups.set(value, (groups.get(value) ?? 0) + 1);
  const spread = (m: number): number => m * (m - 1) * (2 * m + 5);
  const variance = [...groups.values()].reduce((sum, m) => sum - spread(m), spread(n)) / 18;
  if (variance <= 0) return 1;
  return Math.min(1, 2 * upperNormalTail((Math.abs(s) - 1) / Math.sqrt(variance)));
};

/** P(Z > z) for z ≥ 0 through the incomplete gamma function: ½·Q(½, z²/2). */
const upperNormalTail = (z: number): number => (z <= 0 ? 0.5 : 0.5 * incompleteGamma(0.5, (z * z) / 2).upper);
