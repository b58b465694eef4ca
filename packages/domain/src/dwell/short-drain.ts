import type { WardSettings } from '../ward/settings.ts';

/** The fill that the ward's limit in mL is for; it scales with the fill. */
const LIMIT_FOR_FILL_ML = 2000;

/** How much too little a drain brought, mL, by each rule that it breaks; null = that rule holds, or cannot be told. */
export type Shortfall = { belowExpectedMl: number | null; belowFillMl: number | null };

/**
 * Whether a drain brought too little: below a share of what went in, or some mL below what this strength and length
 * should bring. Where no expectation is known only the share counts.
 * (Computed from the published spread of ultrafiltration, 175 to 295 mL; the ward sets both limits.)
 * @returns null when the drain is not short.
 */
export function shortfall(
  { filledMl, drainedMl, expectedUfMl }: { filledMl: number; drainedMl: number; expectedUfMl: number | null },
  settings: Pick<WardSettings, 'shortDrainBelowExpectedMl' | 'shortDrainBelowFillPercent'>,
): Shortfall | null {
  const isBelowFill = drainedMl < (filledMl * settings.shortDrainBelowFillPercent) / 100;
  const missingMl = expectedUfMl === null ? null : filledMl + expectedUfMl - drainedMl;
  const limitMl = (settings.shortDrainBelowExpectedMl * filledMl) / LIMIT_FOR_FILL_ML;
  const isBelowExpected = missingMl !== null && filledMl > 0 && missingMl >= limitMl;
  if (!isBelowFill && !isBelowExpected) return null;
  return {
    belowExpectedMl: isBelowExpected ? missingMl : null,
    belowFillMl: isBelowFill ? filledMl - drainedMl : null,
  };
}
