import { COMMON, setting } from './setting.ts';

/** The furthest that may be typed: times and volumes beyond are refused as slips. */
export const TYPING = {
  beforeAdmissionHours: setting(
    [24, 0, 168],
    'h',
    'T',
    COMMON,
    'Something seen at the bed may lie at most this long before the admission',
  ),
  aheadOfClockMinutes: setting([2, 0, 10], 'min', 'T', COMMON, 'An entry may lie at most this far ahead of the clock'),
  drainedMostMl: setting([6000, 1000, 10000], 'mL', 'T', COMMON, 'Most that may be typed as drained'),
  filledMostMl: setting([5000, 500, 10000], 'mL', 'T', COMMON, 'Most that may be typed as filled'),
  flushMostMl: setting([500, 100, 1000], 'mL', 'T', COMMON, 'Most that may be typed as flush'),
  urineMostMl: setting([10000, 1000, 20000], 'mL', 'T', COMMON, 'Most that may be typed as urine'),
  grossMostG: setting([10000, 1000, 20000], 'g', 'T', COMMON, 'Most that may be typed as gross weight'),
  tareMostG: setting([2000, 100, 5000], 'g', 'T', COMMON, 'Most that may be typed as tare'),
};
