import { COMMON, setting } from './setting.ts';

/** When the next drain or fill is due, when that is soon or overdue, and how many one nurse can run. */
export const DUE_TIMES = {
  soonPercent: setting([10, 1, 50], '%', 'T', COMMON, 'A drain is due soon this share of the planned dwell before it'),
  soonLeastMinutes: setting([5, 0, 60], 'min', 'T', COMMON, 'Due soon begins at least this long before'),
  soonMostMinutes: setting([30, 5, 120], 'min', 'T', COMMON, 'Due soon begins at most this long before'),
  overduePercent: setting(
    [10, 1, 50],
    '%',
    'T',
    COMMON,
    'A drain is overdue this share of the planned dwell after due',
  ),
  overdueLeastMinutes: setting([10, 1, 60], 'min', 'T', COMMON, 'Overdue begins at least this long after due'),
  overdueMostMinutes: setting([60, 10, 240], 'min', 'T', COMMON, 'Overdue begins at most this long after due'),
  clockMinimumMinutes: setting([120, 0, 480], 'min', 'T', COMMON, 'By clock: the shortest dwell after a late fill'),
  clockFarHours: setting(
    [4, 1, 12],
    'h',
    'T',
    COMMON,
    'By clock: a time further than this beyond the planned dwell is not waited for, and the nurse is asked',
  ),
  fillAfterDrainMinutes: setting([30, 5, 240], 'min', 'T', COMMON, 'An empty cavity is to be filled this long after'),
  drainsAtOnce: setting([1, 1, 6], 'drains', 'T', COMMON, 'One nurse can run so many drains at once'),
};
