/** Two weights of one stay further apart than this, kg, are asked about: more than a full cavity and a day's fluid explain (common practice). */
export const APART_KG = 5;

/** Whether a weight, kg, is so far from the last one that the scale is read again before it is kept. Nothing is refused here. */
export const isOddWeight = (weightKg: number, lastKg: number | null): boolean =>
  lastKg !== null && Math.abs(weightKg - lastKg) > APART_KG;
