import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { at, LONDON, policyIn } from '../testing/bedside.ts';
import { shiftAt, wardDayAt } from './day.ts';

const instants = fc.integer({ min: at('2020-01-01T00:00Z'), max: at('2030-01-01T00:00Z') });
const shiftStarts = fc.constantFrom(
  ['07:00', '19:00'],
  ['06:30', '14:30', '22:30'],
  ['07:00', '19:00', '01:00'],
  ['00:00'],
);

it('the ward day begins at the first shift change', () => {
  expect(wardDayAt(at('2026-11-25T06:59Z'), LONDON)).toMatchObject({ date: '2026-11-24', to: at('2026-11-25T07:00Z') });
  expect(wardDayAt(at('2026-11-25T07:00Z'), LONDON)).toMatchObject({
    date: '2026-11-25',
    from: at('2026-11-25T07:00Z'),
  });
});

describe('days and shifts', () => {
  it('hold their instant, follow each other without a gap, and a shift never leaves its day', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('Europe/London', 'America/New_York', 'Australia/Lord_Howe', 'Asia/Kathmandu'),
        shiftStarts,
        instants,
        (zone, starts, now) => {
          const policy = { ...policyIn(zone), shiftStarts: starts };
          const day = wardDayAt(now, policy);
          const shift = shiftAt(now, policy);
          for (const { from, to } of [day, shift]) {
            expect(from).toBeLessThanOrEqual(now);
            expect(to).toBeGreaterThan(now);
          }
          expect(wardDayAt(day.to, policy).from).toBe(day.to);
          expect(shiftAt(shift.to, policy).from).toBe(shift.to);
          expect(shift.from).toBeGreaterThanOrEqual(day.from);
          expect(shift.to).toBeLessThanOrEqual(day.to);
        },
      ),
      { numRuns: 300 },
    );
  });

  it('the night shift goes over midnight and has its clock times as name', () => {
    expect(shiftAt(at('2026-11-26T03:00Z'), LONDON)).toEqual({
      from: at('2026-11-25T19:00Z'),
      to: at('2026-11-26T07:00Z'),
      name: '19:00–07:00',
    });
  });
});
