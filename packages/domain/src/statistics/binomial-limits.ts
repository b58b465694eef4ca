import { type Computed, computed, unlessRefused } from '../units/computed.ts';
import { checkNumbers } from '../units/ranges.ts';
import { CONFIDENCE, CONFIDENCE_RANGE, type Limits } from './limits.ts';
import { betaQuantile } from './quantile.ts';

/**
 * A share with exact (Clopper–Pearson) limits: lower Beta(α/2; k, n − k + 1), upper Beta(1 − α/2; k + 1, n − k).
 * Source: Clopper & Pearson, Biometrika 1934;26:404.
 * @param part how many, whole, 0 to `whole`
 * @param whole out of how many, whole, at least 1
 * @returns shares from 0 to 1, or the problem
 */
export const exactShare = (part: number, whole: number, confidence: number = CONFIDENCE): Computed<Limits> =>
  unlessRefused(
    checkNumbers(
      { whole, part, confidence },
      {
        whole: { least: 1, most: 1_000_000, unit: '', whole: true },
        part: { least: 0, most: Number.isFinite(whole) ? whole : 1_000_000, unit: '', whole: true },
        confidence: CONFIDENCE_RANGE,
      },
    ),
    () => {
      const tail = (1 - confidence) / 2;
      return computed({
        estimate: part / whole,
        lower: part === 0 ? 0 : betaQuantile(tail, part, whole - part + 1),
        upper: part === whole ? 1 : betaQuantile(1 - tail, part + 1, whole - part),
      });
    },
  );
