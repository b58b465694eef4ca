import type { Payloads, WardSettings } from '@slackwater/domain';
import { measuredMl } from '@slackwater/domain/cavity/measured';
import { formatMl } from '@slackwater/domain/words/numbers';
import { readDigits } from '../../../ui/digits.ts';

/** How a drain is measured, as it stands in the form. */
export type MeasureDraft = {
  method: 'scale' | 'bagMarks' | 'jug';
  /** Grams, as typed. */
  gross: string;
  tare: string;
  /** mL, as typed or touched. */
  volume: string;
  flushIncluded: boolean;
};

export const ranges = (settings: WardSettings) => ({
  gross: { least: 0, most: settings.grossMostG, unit: 'g' },
  tare: { least: 0, most: settings.tareMostG, unit: 'g' },
  volume: { least: 0, most: settings.drainedMostMl, unit: 'mL' },
});

/** What the form says so far: a measure, or why there is none yet. */
export type Measured =
  | { measure: Payloads['measure']; volumeMl: number; problem: null }
  | { measure: null; volumeMl: null; problem: string | null };

const none = (problem: string | null): Measured => ({ measure: null, volumeMl: null, problem });

/**
 * Reads the form. Impossible figures give words for the field; an unfinished form gives none.
 * @param role `reading` before the fill, `exact` at the end
 */
export const readMeasure = (
  draft: MeasureDraft,
  drain: number,
  role: 'reading' | 'exact',
  settings: WardSettings,
): Measured => {
  const common = {
    drain,
    role,
    flushIncluded: draft.flushIncluded,
    flushMl: draft.flushIncluded ? settings.flushMl : 0,
  };
  const range = ranges(settings);
  if (draft.method === 'scale') {
    const gross = readDigits(draft.gross, range.gross);
    const tare = readDigits(draft.tare, range.tare);
    if (gross.value === null || tare.value === null) return none(null);
    if (tare.value > gross.value) return none(`Full ${gross.value} g is lighter than empty ${tare.value} g.`);
    const weighed = {
      ...common,
      method: 'scale',
      grossG: gross.value,
      tareG: tare.value,
      densityGPerMl: settings.densityGPerMl,
    } as const;
    return checked(weighed, settings);
  }
  const volume = readDigits(draft.volume, range.volume);
  if (volume.value === null) return none(null);
  return checked({ ...common, method: draft.method, volumeMl: volume.value }, settings);
};

const checked = (measure: Payloads['measure'], settings: WardSettings): Measured => {
  const volumeMl = measuredMl(measure);
  if (volumeMl < 0) return none(`The flush of ${formatMl(measure.flushMl)} is more than what was read.`);
  if (volumeMl > settings.drainedMostMl)
    return none(`${formatMl(volumeMl)} is not possible here: 0 to ${formatMl(settings.drainedMostMl)}.`);
  return { measure, volumeMl, problem: null };
};
