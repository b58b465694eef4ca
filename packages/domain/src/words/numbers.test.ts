import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { at } from '../testing/bedside.ts';
import { formatClock, formatDate, formatMinutes, formatMl } from './numbers.ts';

// ISMP list of error-prone abbreviations: a space before the unit, a comma from 1,000, "mL".
it.each([
  [0, '0 mL'],
  [999.6, '1,000 mL'],
  [2000, '2,000 mL'],
  [1234567, '1,234,567 mL'],
  [-150, '150 mL'],
])('%f mL reads %s', (ml, words) => expect(formatMl(ml)).toBe(words));

describe('durations', () => {
  it.each([
    [0, '0 min'],
    [52.9, '52 min'],
    [60, '1 h'],
    [65, '1 h 05 min'],
    [240, '4 h'],
    [-65, '1 h 05 min'],
  ])('%f min reads %s', (minutes, words) => expect(formatMinutes(minutes)).toBe(words));

  it('never show a sign', () => {
    fc.assert(fc.property(fc.integer({ min: -10_000, max: 10_000 }), (m) => !formatMinutes(m).includes('-')));
  });
});

describe('clock and date', () => {
  it('are those of the ward', () => {
    expect(formatClock(at('2026-11-25T23:30Z'), 'Europe/Berlin')).toBe('00:30');
    expect(formatDate(at('2026-11-25T23:30Z'), 'Europe/Berlin')).toBe('26-Nov-2026');
    expect(formatDate(at('2026-11-05T23:30Z'), 'Europe/London')).toBe('05-Nov-2026');
  });
  it('say the offset on a clock-change night, when a time may come twice', () => {
    expect(formatClock(at('2026-10-25T00:30Z'), 'Europe/London')).toBe('01:30 +01:00');
    expect(formatClock(at('2026-10-25T01:30Z'), 'Europe/London')).toBe('01:30 +00:00');
  });
  it('say no offset on the day before and after it, when every time is there once', () => {
    expect(formatClock(at('2026-10-24T21:30Z'), 'Europe/London')).toBe('22:30');
    expect(formatClock(at('2026-10-25T12:27Z'), 'Europe/London')).toBe('12:27');
  });
});
