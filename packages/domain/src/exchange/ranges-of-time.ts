import type { Problem } from '../record/problem.ts';
import type { WardPolicy } from '../ward/policy.ts';
import { refusal } from './judge-types.ts';

/** An instant that lies after another one; null is none. */
export function later(field: string, at: number | null, than: number): Problem | null {
  if (at === null || at > than) return null;
  return refusal('out-of-order', `${field} lies too early.`, field, at, `later than ${new Date(than).toISOString()}`);
}

/** An instant that lies at most so many hours ahead of another one; null is none. */
export function notFarther(field: string, at: number | null, from: number, mostHours: number): Problem | null {
  const latest = from + mostHours * 3_600_000;
  if (at === null || at <= latest) return null;
  const allowed = `at most ${mostHours} h ahead, ${new Date(latest).toISOString()}`;
  return refusal('too-far-ahead', `${field} lies too far ahead; allowed is ${allowed}.`, field, at, allowed);
}

/** Nobody has an alert, or silences it, for longer than the ward allows. */
export function soon(until: number, from: number, { settings }: WardPolicy): Problem | null {
  const minutes = (until - from) / 60_000;
  const { acknowledgeMostMinutes, aheadOfClockMinutes } = settings;
  // A device's clock may differ by so much before its stamps are shifted.
  if (minutes > 0 && minutes <= acknowledgeMostMinutes + aheadOfClockMinutes) return null;
  const allowed = `within ${acknowledgeMostMinutes} min`;
  return refusal(
    'out-of-range',
    `until lies ${Math.round(minutes)} min ahead; allowed is ${allowed}.`,
    'until',
    until,
    allowed,
  );
}
