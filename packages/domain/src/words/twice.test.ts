import { expect, it } from 'vitest';
import { readTypedTime } from '../time/zone.ts';
import { formatUtcOffset, twiceWords } from './twice.ts';

// Source: the tz database (Lord Howe Island goes back by half an hour; Volgograd changed its offset for good on
// 27 December 2020) and Unicode CLDR (the names of the times).
it.each([
  ['Europe/London', '2026-10-25', '01:30', 'summer time (UTC+1)', 'winter time (UTC+0)'],
  ['America/New_York', '2026-11-01', '01:30', 'summer time (UTC−4)', 'winter time (UTC−5)'],
  ['Australia/Lord_Howe', '2026-04-05', '01:45', 'summer time (UTC+11)', 'winter time (UTC+10:30)'],
  ['Europe/Volgograd', '2020-12-27', '01:30', 'before the clocks went back (UTC+4)', 'after (UTC+3)'],
])('in %s, %s %s comes twice and is told apart by its offset', (zone, date, clock, earlier, later) => {
  const typed = readTypedTime(date, clock, zone);
  if (typed.is !== 'two') throw new Error(`${clock} comes once`);
  expect(twiceWords(typed, zone)).toEqual({ earlier, later });
});

it('writes an offset with its minutes only where it has some', () => {
  const at = Date.UTC(2026, 0, 1);
  const zones = ['UTC', 'Asia/Kolkata', 'America/St_Johns', 'Asia/Tokyo'];
  expect(zones.map((zone) => formatUtcOffset(at, zone))).toEqual(['UTC+0', 'UTC+5:30', 'UTC−3:30', 'UTC+9']);
});
