import type { EpochMs } from '../time/instant.ts';
import { dateAt, nearClockChange, offsetAt } from '../time/zone.ts';

const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

/** A whole number with a comma from 1,000, without a sign: a word beside it says which way. */
export function formatWhole(value: number): string {
  return String(Math.round(Math.abs(value))).replace(/\B(?=(\d{3})+$)/g, ',');
}

/** A volume: `2,000 mL`. Whole mL, never a sign (ISMP error-prone list: a space before the unit, comma from 1,000). */
export const formatMl = (ml: number): string => `${formatWhole(ml)} mL`;

/** A duration in minutes: `52 min`, `1 h 05 min`, `4 h`. Never negative; a begun minute does not count. */
export function formatMinutes(minutes: number): string {
  const whole = Math.floor(Math.abs(minutes));
  const hours = Math.floor(whole / 60);
  const rest = whole % 60;
  if (hours === 0) return `${rest} min`;
  return rest === 0 ? `${hours} h` : `${hours} h ${String(rest).padStart(2, '0')} min`;
}

const clocks = new Map<string, Intl.DateTimeFormat>();

/** A clock time in the ward's zone, 24 hours: `14:05`; within 3 h of a clock change with its offset: `01:30 +01:00`. */
export function formatClock(at: EpochMs, zone: string): string {
  let clock = clocks.get(zone);
  if (clock === undefined) {
    clock = new Intl.DateTimeFormat('en-GB', { timeZone: zone, hour: '2-digit', minute: '2-digit', hourCycle: 'h23' });
    clocks.set(zone, clock);
  }
  const time = clock.format(at);
  return nearClockChange(at, zone) ? `${time} ${offsetAt(at, zone)}` : time;
}

/** A calendar date as people read it without doubt: `2026-11-25` → `25-Nov-2026`. */
export function formatIsoDate(date: string): string {
  const [year, month, day] = date.split('-');
  return `${day}-${MONTHS[Number(month) - 1]}-${year}`;
}

/** The date in the ward's zone: `25-Nov-2026`. */
export const formatDate = (at: EpochMs, zone: string): string => formatIsoDate(dateAt(at, zone));
