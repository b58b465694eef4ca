import { type EpochMs, MINUTE_MS } from '@slackwater/domain/time/instant';
import { dateAt, isClockTime, readTypedTime, type Twice } from '@slackwater/domain/time/zone';
import { formatClock } from '@slackwater/domain/words/numbers';

/** A date and a clock time as typed, and which of two when the clocks go back over it. */
export type TypedInstant = { date: string; clock: string; which: 'earlier' | 'later' | null };

export const EMPTY_INSTANT: TypedInstant = { date: '', clock: '', which: null };

/** Digits alone become a date: 20261125 is 2026-11-25. A phone's number pad has no hyphen. */
export const dateOfDigits = (typed: string): string => typed.replace(/^(\d{4})(\d{2})(\d{2})$/, '$1-$2-$3');

/** Digits alone become a clock time: 0410 is 04:10. A phone's number pad has no colon. */
export const clockOfDigits = (typed: string): string => typed.replace(/^(\d{2})(\d{2})$/, '$1:$2');

/** A clock time alone, also on a night when the clocks change. */
const clockAt = (at: EpochMs, zone: string): string => formatClock(at, zone).slice(0, 5);

/** The typed form of an instant: read again, it is the same minute. */
export const typedFrom = (at: EpochMs, zone: string): TypedInstant => {
  const typed = { date: dateAt(at, zone), clock: clockAt(at, zone) };
  const time = readTypedTime(typed.date, typed.clock, zone);
  return { ...typed, which: time.is === 'two' ? (at < time.later ? 'earlier' : 'later') : null };
};

/** `two`: where the time comes twice, both instants, whether or not it was said which. */
export type ReadInstant =
  | { at: EpochMs; problem: null; two: Twice | null }
  | { at: null; problem: string | null; two: Twice | null };

const isDate = (text: string): boolean => {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return false;
  const parsed = new Date(`${text}T00:00:00Z`);
  return !Number.isNaN(parsed.getTime()) && parsed.toISOString().startsWith(text);
};

/**
 * Reads a typed local time of the ward. A time that does not exist (the clocks went forward over it) is refused; one
 * that exists twice is asked about. It is never shifted by the device's clock.
 */
export const readInstant = ({ date, clock, which }: TypedInstant, zone: string): ReadInstant => {
  const none = (problem: string | null, two: Twice | null = null) => ({ at: null, problem, two });
  if (date.trim() === '' || clock.trim() === '') return none(null);
  if (!isDate(date)) return none(`“${date}” is no date: write year, month, day as YYYY-MM-DD.`);
  if (!isClockTime(clock)) return none(`“${clock}” is no time: write 00:00 to 23:59.`);
  const time = readTypedTime(date, clock, zone);
  if (time.is === 'none') return none(skippedWords(date, clock, time.forwardAt, zone));
  if (time.is === 'one') return { at: time.at, problem: null, two: null };
  if (which === null) return none(`${clock} happens twice on ${date}: say which.`, time);
  return { at: time[which], problem: null, two: time };
};

const skippedWords = (date: string, clock: string, forwardAt: EpochMs, zone: string): string => {
  const [last, first] = [clockAt(forwardAt - MINUTE_MS, zone), clockAt(forwardAt, zone)];
  return `${clock} does not exist on ${date}: the clocks go forward over it. Write up to ${last}, or from ${first}.`;
};
