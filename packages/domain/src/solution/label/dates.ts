import type { IsoDate } from '../../time/zone.ts';

/** A date of a label: the calendar date, or which part of it cannot be. */
export type LabelDate = { date: IsoDate } | { wrong: 'month' | 'day'; allowed: string };

/**
 * The year that two digits mean, seen from this year: 51 or more ahead is the century before, 50 or more back the next.
 * In 2026, `76` is 2076 and `77` is 1977. Source: GS1 General Specifications, "Determination of century in dates".
 * @param twoDigits 0 to 99
 */
export function fullYear(twoDigits: number, thisYear: number): number {
  const ahead = twoDigits - (thisYear % 100);
  const century = thisYear - (thisYear % 100);
  if (ahead >= 51) return century - 100 + twoDigits;
  if (ahead <= -50) return century + 100 + twoDigits;
  return century + twoDigits;
}

/** Days of a month, Gregorian. @param month 1 to 12 */
function daysIn(year: number, month: number): number {
  const isLeap = year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
  return [31, isLeap ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31][month - 1] as number;
}

const isoDate = (year: number, month: number, day: number): IsoDate =>
  `${String(year).padStart(4, '0')}-${String(month).padStart(2, '0')}-${String(day).padStart(2, '0')}`;

/**
 * Reads `YYMMDD`; day 00 is the last day of the month. Nothing is rolled over: month 13 is wrong, not January.
 * @param digits six digits
 */
export function readLabelDate(digits: string, thisYear: number): LabelDate {
  const year = fullYear(Number(digits.slice(0, 2)), thisYear);
  const month = Number(digits.slice(2, 4));
  const day = Number(digits.slice(4, 6));
  if (month < 1 || month > 12) return { wrong: 'month', allowed: '01 to 12' };
  const last = daysIn(year, month);
  if (day > last) return { wrong: 'day', allowed: `00 to ${last}` };
  return { date: isoDate(year, month, day === 0 ? last : day) };
}

/** A date as it is printed on a bag and typed by hand: day, month and year in the order in which ISO 8601 has them. */
const PRINTED_DAY = /^(\d{4})-(\d{2})-(\d{2})$/;
const PRINTED_MONTH = /^(\d{4})-(\d{2})$/;
const PRINTED_MONTH_FIRST = /^(\d{2})[-/](\d{4})$/;

/**
 * Reads an expiry as it is printed and typed: `2027-08-31`, or a month `2027-08` or `08-2027`, which ends on its last day.
 * @returns the date; null when nothing is typed; 'wrong' when it is no date
 */
export function readPrintedExpiry(typed: string): IsoDate | null | 'wrong' {
  const text = typed.trim();
  if (text === '') return null;
  const turned = PRINTED_MONTH_FIRST.exec(text);
  const [, year, month, day = '00'] = PRINTED_DAY.exec(text) ??
    PRINTED_MONTH.exec(text) ??
    (turned && [text, turned[2], turned[1]]) ?? [text];
  if (year === undefined || month === undefined) return 'wrong';
  if (day === '00' && PRINTED_DAY.test(text)) return 'wrong';
  const thatYear = Number(year);
  const read = readLabelDate(`${year.slice(2)}${month}${day}`, thatYear);
  return 'date' in read ? read.date : 'wrong';
}
