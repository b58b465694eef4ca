import type { Mark } from '../mark.ts';

/** One number that the ward sets for itself. */
export type Setting = {
  default: number;
  /** Least and most that may be set, in `unit`. */
  min: number;
  max: number;
  unit: 'mL' | 'g' | 'g/mL' | 'g/L' | '%' | '°C' | 'min' | 'h' | 'days' | 'of 5' | 'of 10' | 'drains' | 'place';
  mark: Mark;
  source: string;
  meaning: string;
};

/** A setting: `[default, least, most]` in `unit`, and where the default is from. */
export const setting = (
  [fallback, min, max]: readonly [number, number, number],
  unit: Setting['unit'],
  mark: Mark,
  source: string,
  meaning: string,
): Setting => ({ default: fallback, min, max, unit, mark, source, meaning });

/** The source of a default that nobody published. */
export const COMMON = 'Common practice';
