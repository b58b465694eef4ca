import type { PatientLimits, WardSettings } from '@slackwater/domain';
import { readDigits } from '../../ui/digits.ts';
import { readDecimal } from '../observations/read-decimal.ts';

/** The limits as they stand in the form: an empty line is a limit that is not set. */
export type LimitsDraft = {
  mostInside: string;
  weightTarget: string;
  weightCavity: 'full' | 'empty' | null;
  systolicLow: string;
  systolicHigh: string;
  overRemoval: string;
  overRemovalHours: string;
};

const typed = (value: number | null | undefined): string => (value == null ? '' : String(value));

/** A form begins with the limits in force. */
export const limitsDraft = (limits: PatientLimits | null): LimitsDraft => ({
  mostInside: typed(limits?.mostInsideMl),
  weightTarget: typed(limits?.weightTargetKg),
  weightCavity: limits?.weightTargetCavity ?? null,
  systolicLow: typed(limits?.systolicLowMmHg),
  systolicHigh: typed(limits?.systolicHighMmHg),
  overRemoval: typed(limits?.overRemovalMl),
  overRemovalHours: typed(limits?.overRemovalHours),
});

/** What each line may hold; the same ranges as the judge of a prescription. */
export const limitRanges = (settings: WardSettings) => ({
  mostInside: { least: 1, most: 2 * settings.filledMostMl, unit: 'mL' },
  weightTarget: { least: 1, most: 350, unit: 'kg' },
  systolic: { least: 20, most: 280, unit: 'mmHg' },
  overRemoval: { least: 1, most: 20_000, unit: 'mL' },
  overRemovalHours: { least: 1, most: 168, unit: 'h' },
});

/** The limits, null for each that is not set; or null while a line cannot be read. */
export const readLimits = (draft: LimitsDraft, settings: WardSettings): PatientLimits | null => {
  const ranges = limitRanges(settings);
  const mostInside = readDigits(draft.mostInside, ranges.mostInside);
  const weight = readDecimal(draft.weightTarget, ranges.weightTarget);
  const low = readDigits(draft.systolicLow, ranges.systolic);
  const high = readDigits(draft.systolicHigh, ranges.systolic);
  const overRemoval = readDigits(draft.overRemoval, ranges.overRemoval);
  const hours = readDigits(draft.overRemovalHours, ranges.overRemovalHours);
  if ([mostInside, weight, low, high, overRemoval, hours].some((one) => one.problem !== null)) return null;
  return {
    mostInsideMl: mostInside.value,
    weightTargetKg: weight.value,
    weightTargetCavity: weight.value === null ? null : draft.weightCavity,
    systolicLowMmHg: low.value,
    systolicHighMmHg: high.value,
    overRemovalMl: overRemoval.value,
    overRemovalHours: hours.value,
  };
};
