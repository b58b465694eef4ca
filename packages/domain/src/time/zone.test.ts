import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { at } from '../testing/bedside.ts';
import { HOUR_MS } from './instant.ts';
import {
  clockMinutesApart,
  dateAt,
  instantOf,
  isClockTime,
  lastOccurrence,
  nearClockChange,
  nearestOccurrence,
  nextOccurrence,
  readTypedTime,
} from './zone.ts';

const zones = fc.constantFrom(...Intl.supportedValuesOf('timeZone'));
// From 2012: before that a zone crossed the date line and skipped a whole calendar day.
const instants = fc.integer({ min: at('2012-01-01T00:00Z'), max: at('2050-01-01T00:00Z') });
const clocks = fc
  .tuple(fc.integer({ min: 0, max: 23 }), fc.integer({ min: 0, max: 59 }))
  .map(([hour, minute]) => `${String(hour).padStart(2, '0')}:${String(minute).padStart(2, '0')}`);

describe('occurrences of a clock time', () => {
  it('nearest: within 13 h, and none of the day before or after is nearer', () => {
    fc.assert(
      fc.property(zones, instants, clocks, (zone, now, clock) => {
        const nearest = nearestOccurrence(clock, now, zone);
        expect(Math.abs(nearest - now)).toBeLessThanOrEqual(13 * HOUR_MS);
        for (const other of [lastOccurrence(clock, now, zone), nextOccurrence(clock, now, zone)]) {
          expect(Math.abs(nearest - now)).toBeLessThanOrEqual(Math.abs(other - now));
        }
      }),
      { numRuns: 300 },
    );
  });
  it('last is not later than now, next is', () => {
    fc.assert(
      fc.property(zones, instants, clocks, (zone, now, clock) => {
        expect(nextOccurrence(clock, now, zone)).toBeGreaterThan(now);
        expect(lastOccurrence(clock, now, zone)).toBeLessThanOrEqual(now);
      }),
      { numRuns: 300 },
    );
  });
  it('equally near: the earlier', () => {
    expect(nearestOccurrence('00:00', at('2026-11-25T12:00Z'), 'UTC')).toBe(at('2026-11-25T00:00Z'));
  });
});

it('a typed time that exists once is read as the prescribed one, and back', () => {
  fc.assert(
    fc.property(zones, instants, clocks, (zone, now, clock) => {
      const date = dateAt(now, zone);
      const typed = readTypedTime(date, clock, zone);
      fc.pre(typed.is === 'one');
      expect(typed).toEqual({ is: 'one', at: instantOf(date, clock, zone) });
    }),
    { numRuns: 200 },
  );
});

it('a clock time in a gap goes later by what is skipped', () => {
  expect(instantOf('2026-03-29', '01:30', 'Europe/London')).toBe(at('2026-03-29T02:30+01:00'));
});

it('minutes from one clock time to the next go round midnight; alone it is a day', () => {
  expect(clockMinutesApart('22:00', '06:00')).toBe(480);
  expect(clockMinutesApart('06:00', '06:00')).toBe(1440);
});

it('knows a clock time from other text', () => {
  expect(['00:00', '23:59', '24:00', '7:00', '07:60', '07.00', ''].map(isClockTime)).toEqual([
    true,
    true,
    false,
    false,
    false,
    false,
    false,
  ]);
});

it('is near a clock change for three hours on either side, asked in any order', () => {
  const change = at('2026-10-25T01:00Z');
  const asked = [200, -4, -3, -1, 0, 2, 3, 4, -200, 0];
  expect(asked.map((hours) => nearClockChange(change + hours * HOUR_MS, 'Europe/London'))).toEqual([
    false,
    false,
    true,
    true,
    true,
    true,
    false,
    false,
    false,
    true,
  ]);
  expect(nearClockChange(change, 'UTC')).toBe(false);
});

// Source: the tz database. London 2026: forward 29 March at 01:00Z, back 25 October at 01:00Z; New York 2026: forward
// 8 March at 07:00Z, back 1 November at 06:00Z.
it.each([
  ['Europe/London', '2026-03-29', '01:30', '2026-03-29T01:00Z', '2026-10-25', '01:30', '2026-10-25T00:30Z'],
  ['America/New_York', '2026-03-08', '02:30', '2026-03-08T07:00Z', '2026-11-01', '01:30', '2026-11-01T05:30Z'],
])('in %s a typed time that is skipped is none, and one that comes twice is two, an hour apart', (...row) => {
  const [zone, springDate, skipped, forward, autumnDate, twice, first] = row;
  expect(readTypedTime(springDate, skipped, zone)).toEqual({ is: 'none', forwardAt: at(forward) });
  const earlier = at(first);
  expect(readTypedTime(autumnDate, twice, zone)).toEqual({ is: 'two', earlier, later: earlier + HOUR_MS });
});
