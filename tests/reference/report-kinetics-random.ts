/** A seeded source of chance (mulberry32), so that every run of the report is the same run. */
export type Chance = {
  /** 0 ≤ x < 1 */
  uniform(): number;
  between(low: number, high: number): number;
  normal(mean: number, sd: number): number;
  pick<T>(choices: readonly T[]): T;
};

export const chanceFrom = (seed: number): Chance => {
  let state = seed >>> 0;
  const uniform = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
  return {
    uniform,
    between: (low, high) => low + (high - low) * uniform(),
    // Box and Muller; 1 − u keeps the logarithm finite.
    normal: (mean, sd) => mean + sd * Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform()),
    pick: (choices) => choices[Math.floor(uniform() * choices.length)]!,
  };
};
