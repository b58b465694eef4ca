import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { OpenAlert } from '../alert/alert.ts';
import { anyBedside, anyNow } from '../testing/arbitrary.ts';
import { at, bedsideOf, byLength, dwelling, revisionOf, visitOf } from '../testing/bedside.ts';
import { rowOf } from '../testing/row.ts';
import { HOUR_MS } from '../time/instant.ts';
import { rowAt } from './row-at.ts';

const REVISION = revisionOf([byLength('a', 240)]);
const instant = (clock: string) => at(`2026-11-25T${clock}Z`);
// Filled 09:15, due 13:15, overdue from 13:39.
const state = dwelling(REVISION, 'a', instant('09:15'));
const shown = (of: typeof state, clock: string) => rowAt(rowOf(of), instant(clock));

describe('a patient who dwells', () => {
  it.each([
    ['10:00', 'later', 'drainAt', 195],
    ['12:14:30', 'later', 'drainAt', 61],
    ['12:15', 'withinTheHour', 'drainAt', 60],
    ['13:14:30', 'withinTheHour', 'drainAt', 1],
    ['13:15', 'now', 'due', 0],
    ['13:16', 'now', 'pastDue', 1],
    ['13:38:59', 'now', 'pastDue', 23],
    ['13:39', 'now', 'overdue', 24],
    ['14:07', 'now', 'overdue', 52],
  ])('at %s: %s, %s %i min', (clock, group, word, minutes) => {
    expect(shown(state, clock)).toMatchObject({ group, word, minutes, at: instant('13:15') });
  });

  it('stands in Now with fluid inside and no time, so that somebody prescribes', () => {
    expect(shown(bedsideOf({ cavity: { state: 'unknown', since: instant('09:00') } }), '10:00')).toMatchObject({
      group: 'now',
      word: 'unknown',
      minutes: null,
    });
  });
});

describe('a visit under way', () => {
  it('shows how long, and after its expected time stands before what is due', () => {
    const visit = visitOf('draining', instant('13:31'));
    const draining = { ...state, visit, due: null };
    expect(shown(draining, '13:50')).toMatchObject({
      group: 'now',
      word: 'draining',
      minutes: 19,
      at: instant('13:31'),
    });
    expect(shown(draining, '14:01').urgency).toBeLessThan(shown(draining, '14:00').urgency);
  });
  it('does not hide that the drain is overdue while it is prepared', () => {
    const preparing = { ...state, visit: visitOf('preparing', instant('13:35')) };
    expect(shown(preparing, '13:38')).toMatchObject({ word: 'preparing', minutes: 3 });
    expect(shown(preparing, '13:39')).toMatchObject({ word: 'overdue', minutes: 24 });
  });
});

describe('an empty cavity', () => {
  const empty = (change: Parameters<typeof bedsideOf>[0]) =>
    bedsideOf({ cavity: { state: 'empty', since: instant('09:00') }, ...change });

  it('whose fill lies far ahead stands in Empty with its time beside it', () => {
    const hold = { since: instant('08:00'), reason: 'leak', reviewBy: instant('18:00') };
    expect(shown(empty({ hold }), '10:00')).toMatchObject({ group: 'empty', word: 'onHold', at: instant('18:00') });
    expect(shown(empty({ hold }), '17:30')).toMatchObject({ group: 'withinTheHour', word: 'reviewAt', minutes: 30 });
  });
  it('whose fill is due within the hour stands there, then in Now', () => {
    const owed = empty({ prescription: REVISION, lastItemId: 'a' });
    expect(shown(owed, '09:10')).toMatchObject({ group: 'withinTheHour', word: 'fillAt', minutes: 20 });
    expect(shown(owed, '09:41')).toMatchObject({ group: 'now', word: 'overdue', minutes: 11 });
  });
  it('on hold with fluid inside stays in the timed groups', () => {
    const hold = { since: instant('10:00'), reason: 'leak', reviewBy: instant('18:00') };
    expect(shown({ ...state, hold }, '12:30')).toMatchObject({ group: 'withinTheHour', word: 'drainAt' });
  });
});

describe('the order of the board', () => {
  const high: OpenAlert = {
    id: 'alert',
    kind: 'effluentCloudy',
    cause: 'drain',
    rank: 'high',
    since: instant('09:00'),
    facts: {},
    raisedAt: instant('09:00'),
    settingsVersion: 1,
    owner: null,
    acknowledgedAt: null,
    snoozedUntil: null,
    escalatedTo: null,
  };
  const held = { ...high, owner: { accountId: 'perera', until: instant('14:30') } };

  it('is: high that nobody has, high held, overdue, standing, due, under way, within the hour, later, empty', () => {
    const filledAt = (clock: string) => dwelling(REVISION, 'a', instant(clock));
    const rows = [
      { ...filledAt('13:00'), alerts: [high] },
      { ...filledAt('13:00'), alerts: [held] },
      filledAt('08:00'),
      filledAt('09:00'),
      { ...filledAt('13:00'), visit: visitOf('connected', instant('13:40')) },
      filledAt('10:05'),
      { ...filledAt('13:00'), visit: visitOf('preparing', instant('14:00')) },
      filledAt('10:30'),
      filledAt('13:00'),
      bedsideOf({ cavity: { state: 'empty', since: 0 } }),
    ];
    const urgency = rows.map((row) => shown(row, '14:07').urgency);
    expect(urgency).toEqual(urgency.toSorted((a, b) => a - b));
    expect(new Set(urgency).size).toBe(rows.length);
  });

  it('takes a lapsed acknowledgement for nobody’s', () => {
    const row = { ...state, alerts: [held] };
    expect(shown(row, '14:30').urgency).toBeLessThan(shown(row, '14:29').urgency);
  });

  it('never goes back for a row while nothing happens', () => {
    const later = fc.integer({ min: 0, max: 26 * HOUR_MS });
    fc.assert(
      fc.property(anyBedside, anyNow, later, (bedside, now, ms) => {
        const row = rowOf(bedside);
        expect(rowAt(row, now + ms).urgency).toBeLessThanOrEqual(rowAt(row, now).urgency);
      }),
      { numRuns: 1000 },
    );
  });

  it('has minutes that are whole and never negative', () => {
    fc.assert(
      fc.property(anyBedside, anyNow, (bedside, now) => {
        const { minutes } = rowAt(rowOf(bedside), now);
        expect(minutes === null || (Number.isInteger(minutes) && minutes >= 0)).toBe(true);
      }),
    );
  });
});
