import type { EntryKind, WardSettings } from '@slackwater/domain';

/** A figure of a payload that may be typed anew. */
export type Figure = {
  /** Where it stands in the payload. */
  key: string;
  label: string;
  unit: string;
  least: number;
  most: number;
  decimals: boolean;
};

const whole = (key: string, label: string, unit: string, least: number, most: number): Figure => ({
  key,
  label,
  unit,
  least,
  most,
  decimals: false,
});
const decimal = (key: string, label: string, unit: string, least: number, most: number): Figure => ({
  ...whole(key, label, unit, least, most),
  decimals: true,
});

/**
 * Which figures of an entry a correction may type anew, by the same ranges as at first; every entry's time may be
 * corrected, whatever else it says.
 */
export const figuresOf = (
  kind: EntryKind,
  payload: Readonly<Record<string, unknown>>,
  settings: WardSettings,
): readonly Figure[] => {
  switch (kind) {
    case 'measure':
      return payload.method === 'scale'
        ? [
            whole('grossG', 'Full drain bag', 'g', 0, settings.grossMostG),
            whole('tareG', 'Empty bag', 'g', 0, settings.tareMostG),
          ]
        : [whole('volumeMl', 'Volume', 'mL', 0, settings.drainedMostMl + settings.flushMostMl)];
    case 'startFill':
      return [whole('flushMl', 'Flush', 'mL', 0, settings.flushMostMl)];
    case 'weight':
      return [decimal('weightKg', 'Weight', 'kg', 1, 350)];
    case 'bloodPressure':
      return [whole('systolicMmHg', 'Systolic', 'mmHg', 20, 280), whole('diastolicMmHg', 'Diastolic', 'mmHg', 20, 280)];
    case 'temperature':
      return [decimal('celsius', 'Temperature', '°C', 30, 43)];
    case 'glucose':
      return [decimal('glucoseMmolPerL', 'Blood glucose', 'mmol/L', 0.5, 60)];
    case 'otherFluid':
      return [whole('volumeMl', 'Volume', 'mL', 0, settings.urineMostMl)];
    // What went in is stated anew as one figure, whatever it was computed from.
    case 'endFill':
      return [whole('infused', 'Went in', 'mL', 1, settings.filledMostMl)];
    default:
      return [];
  }
};

/** The payload with its figures typed anew. */
export const withFigures = (
  kind: EntryKind,
  payload: Readonly<Record<string, unknown>>,
  figures: Readonly<Record<string, number>>,
): Readonly<Record<string, unknown>> => {
  if (kind !== 'endFill') return { ...payload, ...figures };
  return figures.infused === undefined
    ? payload
    : { ...payload, infused: { basis: 'stated', volumeMl: figures.infused } };
};
