import { COMMON, setting } from './setting.ts';

/** Who hears of an alert that nobody has, and after how long. */
export const ALERTING = {
  acknowledgeMostMinutes: setting([30, 5, 120], 'min', 'T', COMMON, 'An alert may be acknowledged for at most this'),
  escalateToChargeNurseMinutes: setting(
    [5, 1, 60],
    'min',
    'T',
    COMMON,
    'A high alert that nobody has goes to the charge nurse after this',
  ),
  escalateToPhysicianMinutes: setting(
    [15, 2, 120],
    'min',
    'T',
    COMMON,
    'A high alert that nobody has goes to the physician after this',
  ),
};
