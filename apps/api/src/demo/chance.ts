/** A small seeded generator (mulberry32): the same seed tells the same invented month. */
export type Chance = {
  /** 0 ≤ x < 1 */
  unit(): number;
  between(low: number, high: number): number;
  /** Roughly normal: the sum of twelve uniforms. */
  normal(mean: number, sd: number): number;
};

export function chance(seed: number): Chance {
  let state = seed >>> 0;
  const unit = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  return {
    unit,
    between: (low, high) => low + unit() * (high - low),
    normal: (mean, sd) => {
      let sum = -6;
      for (let i = 0; i < 12; i++) sum += unit();
      return mean + sd * sum;
    },
  };
}
