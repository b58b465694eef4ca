import { at, byClock, byLength, dwelling, policyIn, revisionOf } from '@slackwater/domain/testing/bedside';
import { readTypedTime } from '@slackwater/domain/time/zone';
import { wardDayAt } from '@slackwater/domain/ward/day';
import { formatClock } from '@slackwater/domain/words/numbers';
import { describe, expect, it } from 'vitest';

/** Zones, dates and answers: computed (mark C) with the time-zone database through Temporal, as elapsed time. */
const FOUR_HOURS = [
  ['America/New_York', '2026-03-08T00:30-05:00', '05:30'],
  ['America/New_York', '2026-11-01T00:30-04:00', '03:30'],
  ['Europe/London', '2026-03-29T00:15+00:00', '05:15'],
] as const;

describe('four hours by length over a clock change', () => {
  it.each(FOUR_HOURS)('%s, fill ended %s: due at %s by the ward’s clock', (zone, filled, clock) => {
    const policy = policyIn(zone);
    const { due } = dwelling(revisionOf([byLength('a', 240)]), 'a', at(filled), {}, policy);
    expect(due!.dueAt - at(filled)).toBe(4 * 60 * 60 * 1000);
    expect(formatClock(due!.dueAt, zone).slice(0, 5)).toBe(clock);
  });
});

/** The lengths follow from the hour that is skipped or comes twice: 23 or 25 h (mark C). */
it.each([
  ['Europe/London', '2026-03-28T12:00Z', 23],
  ['Europe/London', '2026-03-29T12:00Z', 24],
  ['Europe/London', '2026-10-24T12:00Z', 25],
  ['America/New_York', '2026-03-07T17:00Z', 23],
  ['America/New_York', '2026-10-31T16:00Z', 25],
])('a ward day of %s from 07:00 at %s has %i h', (zone, instant, hours) => {
  const day = wardDayAt(at(instant), policyIn(zone));
  expect((day.to - day.from) / 3_600_000).toBe(hours);
});

describe('a typed local time (New York 2026; mark C)', () => {
  it('02:30 in the gap does not exist', () => {
    const forwardAt = at('2026-03-08T07:00:00Z');
    expect(readTypedTime('2026-03-08', '02:30', 'America/New_York')).toEqual({ is: 'none', forwardAt });
  });
  it('01:30 in the overlap exists twice', () => {
    expect(readTypedTime('2026-11-01', '01:30', 'America/New_York')).toEqual({
      is: 'two',
      earlier: at('2026-11-01T01:30-04:00'),
      later: at('2026-11-01T01:30-05:00'),
    });
  });
  it('any other is one instant', () => {
    expect(readTypedTime('2026-11-01', '03:30', 'America/New_York')).toEqual({
      is: 'one',
      at: at('2026-11-01T03:30-05:00'),
    });
  });
});

describe('a prescribed clock time (the rule of the design: later in a gap, earlier in an overlap)', () => {
  const night = revisionOf([byClock('late', '22:00'), byClock('night', '01:30'), byClock('gap', '02:30')]);
  it('01:30 in the gap of London is 02:30 summer time', () => {
    const { due } = dwelling(night, 'late', at('2026-03-28T22:10Z'));
    expect(due?.dueAt).toBe(at('2026-03-29T02:30+01:00'));
  });
  it('01:30 in the overlap of London is the first one', () => {
    const { due } = dwelling(night, 'late', at('2026-10-24T22:10+01:00'));
    expect(due?.dueAt).toBe(at('2026-10-25T01:30+01:00'));
  });
});
