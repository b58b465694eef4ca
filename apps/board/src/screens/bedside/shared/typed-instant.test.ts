import { describe, expect, it } from 'vitest';
import { clockOfDigits, dateOfDigits, readInstant, typedFrom } from './typed-instant.ts';

const zone = 'Europe/London';
const read = (date: string, clock: string, which: 'earlier' | 'later' | null = null) =>
  readInstant({ date, clock, which }, zone);

// Source: clock changes of Europe/London in 2026 (tz database): forward 29 March 01:00, back 25 October 02:00.
describe('a typed local time', () => {
  it('is the instant in the ward’s zone', () => {
    expect(read('2026-07-01', '12:00').at).toBe(Date.UTC(2026, 6, 1, 11));
    expect(read('2026-12-01', '12:00').at).toBe(Date.UTC(2026, 11, 1, 12));
  });
  it('that does not exist is refused', () => {
    expect(read('2026-03-29', '01:30')).toEqual({
      at: null,
      two: null,
      problem: '01:30 does not exist on 2026-03-29: the clocks go forward over it. Write up to 00:59, or from 02:00.',
    });
  });
  it('that exists twice is asked about', () => {
    const two = { earlier: Date.UTC(2026, 9, 25, 0, 30), later: Date.UTC(2026, 9, 25, 1, 30) };
    expect(read('2026-10-25', '01:30')).toMatchObject({ at: null, two });
    expect(read('2026-10-25', '01:30', 'earlier').at).toBe(two.earlier);
    expect(read('2026-10-25', '01:30', 'later').at).toBe(two.later);
  });
  it('is typed with digits alone where a phone offers no other keys', () => {
    expect(dateOfDigits('20261125')).toBe('2026-11-25');
    expect(clockOfDigits('0410')).toBe('04:10');
    // half typed, or typed with its marks, it stays as it is
    for (const text of ['2026112', '2026-11-2', '2026-11-25']) expect(dateOfDigits(text)).toBe(text);
    for (const text of ['04', '04:1', '04:10', '4.10']) expect(clockOfDigits(text)).toBe(text);
  });
  it('that is no time or no date says what to write', () => {
    expect(read('2026-02-30', '12:00').problem).toContain('no date');
    expect(read('2026-02-28', '25:00').problem).toContain('no time');
    expect(read('', '12:00')).toEqual({ at: null, problem: null, two: null });
  });
  it('comes back as it was typed', () => {
    expect(typedFrom(Date.UTC(2026, 6, 1, 11), zone)).toEqual({ date: '2026-07-01', clock: '12:00', which: null });
  });
  it('comes back as the same minute, through both clock changes', () => {
    for (const change of [Date.UTC(2026, 2, 29, 1), Date.UTC(2026, 9, 25, 1)]) {
      for (let minutes = -120; minutes <= 120; minutes += 15) {
        const at = change + minutes * 60_000;
        expect(readInstant(typedFrom(at + 59_999, zone), zone).at).toBe(at);
      }
    }
  });
});
