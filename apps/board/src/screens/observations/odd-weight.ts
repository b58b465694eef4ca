/** Two weights of one stay further apart than this, kg, are asked about: more than a full cavity and a day's fluid explain (common practice). */
export const APART_KG = 5;

/** Whether a weight, kg, is so far from the last one that the scale is read again before it is kept. Nothing is refused here. */
export const isOddWeight = (weightKg: number, lastKg: number | null): boolean =>
  // to the gram: 68.9 − 63.9 is a little over 5 in binary
  lastKg !== null && Math.round(Math.abs(weightKg - lastKg) * 1000) > APART_KG * 1000;
