import { COMMON, setting } from './setting.ts';

/** Suspected peritonitis and the new catheter. */
export const INFECTION = {
  newCatheterDays: setting(
    [30, 1, 90],
    'days',
    'M',
    'ISPD 2022 counts a peritonitis within 30 days as of the insertion; from memory',
    'A catheter is new for so long: sudden “urine” or watery stool may be bladder or bowel',
  ),
  sampleWithinMinutes: setting(
    [60, 10, 360],
    'min',
    'T',
    COMMON,
    'A suspected peritonitis without a sample after this is an alert',
  ),
  countWithinHours: setting(
    [6, 1, 48],
    'h',
    'T',
    COMMON,
    'A sample whose cell count is not reported after this is an alert',
  ),
};
