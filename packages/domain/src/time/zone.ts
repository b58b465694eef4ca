import type { ClockTime } from '../prescription/prescription.ts';
import { type EpochMs, HOUR_MS } from './instant.ts';

/** A calendar date, `YYYY-MM-DD`. */
export type IsoDate = string;

const zoned = (at: EpochMs, zone: string): Temporal.ZonedDateTime =>
  Temporal.Instant.fromEpochMilliseconds(at).toZonedDateTimeISO(zone);

/** The calendar date in `zone` at an instant. */
export const dateAt = (at: EpochMs, zone: string): IsoDate => zoned(at, zone).toPlainDate().toString();

/** The date `days` after `date`; negative goes back. */
export const plusDays = (date: IsoDate, days: number): IsoDate =>
  Temporal.PlainDate.from(date).add({ days }).toString();

/**
 * The instant of a prescribed clock time on a date. A time that the clocks skip goes later by what is skipped
 * (02:30 → 03:30), one that comes twice is the earlier (Temporal's "compatible").
 */
export function instantOf(date: IsoDate, clock: ClockTime, zone: string): EpochMs {
  return Temporal.PlainDate.from(date).toZonedDateTime({ timeZone: zone, plainTime: clock }).epochMilliseconds;
}

/**
 * The occurrence of a clock time nearest to `at`; when two are equally near, the earlier.
 * Looks one day either way, which covers days of 23 and 25 hours.
 */
export function nearestOccurrence(clock: ClockTime, at: EpochMs, zone: string): EpochMs {
  const today = dateAt(at, zone);
  const occurrences = [-1, 0, 1].map((days) => instantOf(plusDays(today, days), clock, zone));
  return occurrences.reduce((best, next) => (Math.abs(next - at) < Math.abs(best - at) ? next : best));
}

/** The first occurrence of a clock time later than `at`. */
export function nextOccurrence(clock: ClockTime, at: EpochMs, zone: string): EpochMs {
  const today = dateAt(at, zone);
  const todays = instantOf(today, clock, zone);
  return todays > at ? todays : instantOf(plusDays(today, 1), clock, zone);
}

/** The last occurrence of a clock time that is not later than `at`. */
export function lastOccurrence(clock: ClockTime, at: EpochMs, zone: string): EpochMs {
  const today = dateAt(at, zone);
  const todays = instantOf(today, clock, zone);
  return todays <= at ? todays : instantOf(plusDays(today, -1), clock, zone);
}

/** Minutes from one clock time to the next occurrence of another on an ordinary day; 1,440 when they are equal. */
export function clockMinutesApart(from: ClockTime, to: ClockTime): number {
  const apart = minutesOfDay(to) - minutesOfDay(from);
  return apart > 0 ? apart : apart + 24 * 60;
}

/** Minutes since midnight of a clock time. */
export const minutesOfDay = (clock: ClockTime): number => Number(clock.slice(0, 2)) * 60 + Number(clock.slice(3, 5));

/** Whether a text is a clock time, `00:00` to `23:59`. */
export const isClockTime = (text: string): boolean => /^([01]\d|2[0-3]):[0-5]\d$/.test(text);

/** The two instants of a local time that comes twice. */
export type Twice = { earlier: EpochMs; later: EpochMs };

/** What a person typed as a local time means: one instant, none (the clocks skip it at `forwardAt`), or one of two. */
export type TypedTime = { is: 'one'; at: EpochMs } | { is: 'none'; forwardAt: EpochMs } | ({ is: 'two' } & Twice);

/**
 * Reads a local time that a person typed. Nothing is assumed: a time that does not exist is to be refused, one that
 * exists twice is to be asked about.
 */
export function readTypedTime(date: IsoDate, clock: ClockTime, zone: string): TypedTime {
  const local = Temporal.PlainDate.from(date).toPlainDateTime(Temporal.PlainTime.from(clock));
  const earlier = local.toZonedDateTime(zone, { disambiguation: 'earlier' });
  const later = local.toZonedDateTime(zone, { disambiguation: 'later' });
  if (earlier.epochMilliseconds === later.epochMilliseconds) return { is: 'one', at: earlier.epochMilliseconds };
  if (!earlier.toPlainDateTime().equals(local)) {
    // read with the offset of afterwards, a skipped time lies before the change; so there is one after it
    return { is: 'none', forwardAt: earlier.getTimeZoneTransition('next')!.epochMilliseconds };
  }
  return { is: 'two', earlier: earlier.epochMilliseconds, later: later.epochMilliseconds };
}

/** The offset from UTC at an instant, as text: `+01:00`. */
export const offsetAt = (at: EpochMs, zone: string): string => zoned(at, zone).offset;

const NIGHT_MS = 3 * HOUR_MS;
/** The last stretch without a clock change that was looked up, by zone. Only a memory: the answer never depends on it. */
const quiet = new Map<string, { from: EpochMs; to: EpochMs }>();

/** Whether the clocks change within 3 hours of an instant, so that a clock time alone could be misread. */
export function nearClockChange(at: EpochMs, zone: string): boolean {
  let known = quiet.get(zone);
  if (known === undefined || at < known.from || at >= known.to) {
    const here = zoned(at, zone);
    known = {
      from:
        here.add({ milliseconds: 1 }).getTimeZoneTransition('previous')?.epochMilliseconds ?? Number.NEGATIVE_INFINITY,
      to: here.getTimeZoneTransition('next')?.epochMilliseconds ?? Number.POSITIVE_INFINITY,
    };
    quiet.set(zone, known);
  }
  return at - known.from < NIGHT_MS || known.to - at <= NIGHT_MS;
}
