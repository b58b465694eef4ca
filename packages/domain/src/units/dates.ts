import type { Problem } from '../record/problem.ts';
import type { IsoDate } from '../time/zone.ts';

const SHAPE = /^\d{4}-\d{2}-\d{2}$/;
const DAY_MS = 86_400_000;

/**
 * Days since 1970-01-01 of a calendar day: the difference of two is a number of days, whatever the zone or the clocks
 * do. NaN for a day that does not exist (2026-02-30) or another form.
 */
export const dayNumber = (date: IsoDate): number => {
  if (!SHAPE.test(date)) return Number.NaN;
  const day = Date.parse(`${date}T00:00:00Z`) / DAY_MS;
  return isoDate(day) === date ? day : Number.NaN;
};

/** The calendar day of a day number. */
export const isoDate = (day: number): IsoDate =>
  Number.isFinite(day) ? new Date(day * DAY_MS).toISOString().slice(0, 10) : '';

/** Checks a day; `from` and `to` bound it, both allowed. */
export const checkDate = (
  field: string,
  value: unknown,
  bounds: { from?: IsoDate; to?: IsoDate } = {},
): readonly Problem[] => {
  const { from, to } = bounds;
  const allowed = `YYYY-MM-DD${from ? ` from ${from}` : ''}${to ? ` to ${to}` : ''}`;
  const problem = (code: string, what: string): readonly Problem[] => [
    { code, field, value, allowed, message: `${field} ${what}; allowed: ${allowed}` },
  ];
  if (value === null || value === undefined) return problem('missing', 'is missing');
  if (typeof value !== 'string' || Number.isNaN(dayNumber(value))) {
    return problem('not-a-date', `is not a day of the calendar (${JSON.stringify(value)})`);
  }
  if ((from && value < from) || (to && value > to)) return problem('dates-out-of-order', `is ${value}`);
  return [];
};

/** A calendar month as far as it lies within a stretch of days. */
export type Month = { month: string; from: IsoDate; to: IsoDate };

/** The calendar months from one day to another, the first and the last cut to the stretch. */
export const monthsOf = (from: IsoDate, to: IsoDate): readonly Month[] => {
  const months: Month[] = [];
  for (let day = dayNumber(from); day <= dayNumber(to); ) {
    const start = isoDate(day);
    const [year, month] = start.split('-').map(Number) as [number, number];
    const last = Math.min(Date.UTC(year, month, 0) / DAY_MS, dayNumber(to));
    months.push({ month: start.slice(0, 7), from: start, to: isoDate(last) });
    day = last + 1;
  }
  return months;
};
