import type { EpochMs } from '../time/instant.ts';
import { dateAt, type IsoDate, instantOf, minutesOfDay, plusDays } from '../time/zone.ts';
import type { WardPolicy } from './policy.ts';

/** A ward day: from the first shift change of a date to the same of the next; 23 or 25 h when the clocks change. */
export type WardDay = { from: EpochMs; to: EpochMs; date: IsoDate };

export type Shift = { from: EpochMs; to: EpochMs; name: string };

type Calendar = Pick<WardPolicy, 'zone' | 'shiftStarts'>;

const firstStart = (policy: Calendar): string => policy.shiftStarts[0] ?? '00:00';

/** The ward day that holds an instant: `from` belongs to it, `to` to the next. `date` is the date it begins on. */
export function wardDayAt(at: EpochMs, policy: Calendar): WardDay {
  const start = firstStart(policy);
  const today = dateAt(at, policy.zone);
  const date = at < instantOf(today, start, policy.zone) ? plusDays(today, -1) : today;
  return wardDayOf(date, policy);
}

/** The ward day that begins on a date. */
export function wardDayOf(date: IsoDate, policy: Calendar): WardDay {
  const start = firstStart(policy);
  return {
    from: instantOf(date, start, policy.zone),
    to: instantOf(plusDays(date, 1), start, policy.zone),
    date,
  };
}

/** The shift that holds an instant, named by its clock times: `07:00–19:00`. */
export function shiftAt(at: EpochMs, policy: Calendar): Shift {
  const day = wardDayAt(at, policy);
  const starts = policy.shiftStarts.length > 0 ? policy.shiftStarts : ['00:00'];
  const first = minutesOfDay(firstStart(policy));
  const begins = starts.map((clock) => {
    const date = minutesOfDay(clock) < first ? plusDays(day.date, 1) : day.date;
    return { clock, at: instantOf(date, clock, policy.zone) };
  });
  const index = begins.findLastIndex((begin) => begin.at <= at);
  const begin = begins[Math.max(0, index)]!;
  const end = begins[Math.max(0, index) + 1] ?? { clock: firstStart(policy), at: day.to };
  return { from: begin.at, to: end.at, name: `${begin.clock}–${end.clock}` };
}
