/** How well a membrane is known: the mean of many patients, one person by the population's, one person fitted to a test. */
export type Knowledge = 'mean of many' | 'population' | 'fitted';

/**
 * Half-widths around the estimate of one dwell. Ultrafiltration: ± 150 mL for the mean of many up to 4 h, ± 250 mL for a
 * person who was never tested. Beyond 6 h the model is known to be wrong by more: it misses the published overnight
 * volumes by +307 and +508 mL at 8 and 12 h (1.36 %) and by −341 and −120 mL (3.86 %) (Kidney Int 1994;46:496).
 */
const ULTRAFILTRATION_ML: Readonly<Record<Knowledge, number>> = {
  'mean of many': 150,
  population: 250,
  // Chosen: the model's own 150 mL and the day-to-day spread of drains, about 110 mL, together.
  fitted: 190,
};
const SHORT_MINUTES = 240;
const LONG_MINUTES = 360;
const LONGEST_MINUTES = 720;
const LONG_ML = 300;
const LONGEST_ML = 500;
/** Sources on icodextrin differ twofold. */
const ICODEXTRIN_SHARE = 0.5;

/**
 * How far the real ultrafiltration of a dwell may lie from the model's, mL either way.
 * @param dwellMinutes > 0; beyond 6 h the band no longer depends on how well the membrane is known
 * @param icodextrinUltrafiltrationMl the estimate for an icodextrin dwell, mL; null for glucose
 */
export function ultrafiltrationBandMl(
  dwellMinutes: number,
  knowledge: Knowledge,
  icodextrinUltrafiltrationMl: number | null = null,
): number {
  if (icodextrinUltrafiltrationMl !== null) {
    return Math.max(LONG_ML, ICODEXTRIN_SHARE * Math.abs(icodextrinUltrafiltrationMl));
  }
  const short = ULTRAFILTRATION_ML[knowledge];
  if (dwellMinutes <= SHORT_MINUTES) return short;
  if (dwellMinutes <= LONG_MINUTES) return along(dwellMinutes, SHORT_MINUTES, LONG_MINUTES, short, LONG_ML);
  return along(dwellMinutes, LONG_MINUTES, LONGEST_MINUTES, LONG_ML, LONGEST_ML);
}

const along = (x: number, from: number, to: number, atFrom: number, atTo: number): number =>
  atFrom + ((x - from) / (to - from)) * (atTo - atFrom);

/**
 * Half-widths of the other quantities of a dwell. For the mean of many and a fitted person: what the published means
 * allow. For a person by the population's membrane: about one standard deviation of D/P creatinine among patients
 * (0.50 to 0.81 around 0.65), and what the model makes of it for the rest.
 */
export const SOLUTE_BANDS: Readonly<
  Record<Knowledge, { dOverPUrea: number; dOverPCreatinine: number; dOverPSodium: number; glucoseShare: number }>
> = {
  'mean of many': { dOverPUrea: 0.03, dOverPCreatinine: 0.05, dOverPSodium: 0.02, glucoseShare: 0.06 },
  fitted: { dOverPUrea: 0.03, dOverPCreatinine: 0.05, dOverPSodium: 0.02, glucoseShare: 0.06 },
  population: { dOverPUrea: 0.1, dOverPCreatinine: 0.16, dOverPSodium: 0.03, glucoseShare: 0.12 },
};
