import { COMMON, setting } from './setting.ts';

/** What may be prescribed, what is added to a bag, and when it is looked at again. */
export const PRESCRIBING = {
  dwellLeastMinutes: setting([10, 1, 60], 'min', 'T', COMMON, 'Shortest dwell that may be prescribed'),
  dwellMostMinutes: setting([1440, 60, 2880], 'min', 'T', COMMON, 'Longest dwell that may be prescribed'),
  antibioticDwellMinutes: setting(
    [360, 60, 1440],
    'min',
    'M',
    'RCP review, Box 2, and hospital guidelines, edition from memory: once a day in the bag, at least 6 h',
    'Offered as the least dwell of an antibiotic in the bag; the prescriber says it',
  ),
  secondPersonMinutes: setting(
    [2, 1, 10],
    'min',
    'T',
    COMMON,
    'A second person’s check of what is in the bag holds for so long',
  ),
  acuteReviewHours: setting(
    [24, 4, 72],
    'h',
    'P',
    'Int J Nephrol 2011:739794, Table 7: an acute prescription is reviewed daily',
    'An acute prescription is to be reviewed within this',
  ),
  holdReviewMostHours: setting([72, 1, 336], 'h', 'T', COMMON, 'A hold is reviewed within this at the latest'),
  prescriptionReviewMostDays: setting(
    [90, 1, 365],
    'days',
    'T',
    COMMON,
    'A review of a prescription lies at most this far ahead',
  ),
  countersignHours: setting([24, 1, 168], 'h', 'T', COMMON, 'A telephone order is to be countersigned within this'),
};
