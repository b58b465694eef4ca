import { describe, expect, it } from 'vitest';
import type { BedsideState, Visit } from '../bedside/state.ts';
import type { Appearance } from '../effluent/effluent.ts';
import {
  at,
  bedsideOf,
  byLength,
  drainOf,
  dwelling,
  dwellOf,
  fillOf,
  LONDON,
  orderOf,
  revisionOf,
  visitOf,
} from '../testing/bedside.ts';
import type { AlertKind } from './alert.ts';
import { ALERT_RULES, conditionsAt } from './rules.ts';
import { alertWords } from './words.ts';

const instant = (clock: string) => at(`2026-11-25T${clock}Z`);
const REVISION = revisionOf([byLength('a', 240)]);
const conditions = (state: BedsideState, clock: string) => conditionsAt(state, instant(clock), LONDON);
const found = (state: BedsideState, clock: string) =>
  conditions(state, clock).map(({ kind, rank }) => `${rank} ${kind}`);

describe('a visit left standing', () => {
  // Preparing 15, connected 10, drained 15, filling 30, closing 15 min; a drain past 30 and 45 min.
  it.each<[Visit['state'], string, string, string]>([
    ['preparing', '10:14', '10:15', 'medium visitLeftStanding'],
    ['connected', '10:09', '10:10', 'medium visitLeftStanding'],
    ['drained', '10:14', '10:15', 'medium visitLeftStanding'],
    ['filling', '10:29', '10:30', 'high fillLeftStanding'],
    ['closing', '10:14', '10:15', 'medium visitLeftStanding'],
    ['draining', '10:29', '10:30', 'medium drainSlow'],
    ['draining', '10:44', '10:45', 'high drainVerySlow'],
  ])('%s since 10:00: at %s not yet, at %s %s', (state, before, then, expected) => {
    const bedside = bedsideOf({ visit: visitOf(state, instant('10:00')) });
    expect(found(bedside, before)).not.toContain(expected);
    expect(found(bedside, then)).toEqual([expected]);
  });
});

describe('what a drain looks like', () => {
  it.each<[Appearance, string | undefined]>([
    ['clear', undefined],
    ['fibrin', undefined],
    ['pink', undefined],
    ['cloudy', 'high effluentCloudy'],
    ['milky', 'high effluentCloudy'],
    ['bloody', 'medium effluentBloody'],
    ['brown', 'high effluentBowelOrBile'],
    ['green', 'high effluentBowelOrBile'],
  ])('%s: %s', (appearance, expected) => {
    const running = dwellOf([drainOf(instant('10:00'), null, { appearance: [appearance] })]);
    const bedside = bedsideOf({ visit: visitOf('draining', instant('10:00')), openDwell: running });
    expect(found(bedside, '10:01')).toEqual(expected ? [expected] : []);
  });
});

const drained = (drainedMl: number, bookMl: number | null, change: Partial<BedsideState> = {}) => {
  const drain = drainOf(instant('10:00'), instant('10:15'), { drainedMl });
  const volumes = { filledMl: 2000, drainedMl, drainMinusFillMl: drainedMl - 2000, expectedUfMl: 350 };
  return bedsideOf({
    cavity: { state: 'empty', since: instant('10:15') },
    openDwell: dwellOf([drain], volumes),
    inside: { bookMl, flowMl: bookMl, flowVarianceMl2: 1e4, ufCorrectionMl: 0, correctionFrom: null, sinceEmpty: null },
    prescription: REVISION,
    lastItemId: 'a',
    visit: visitOf('drained', instant('10:15')),
    ...change,
  });
};

describe('a short drain', () => {
  // 2,000 mL in, 350 expected on top: short from 1,950 mL down (400 below), or under 1,600 mL (80 % of the fill).
  it.each([
    [1951, []],
    [1950, ['medium drainShort']],
  ])('of %i mL', (drainedMl, expected) => {
    expect(found(drained(drainedMl, null), '10:16')).toEqual(expected);
  });
  it('stays until the next drain begins', () => {
    const short = drained(1500, null);
    const dwell = short.openDwell!;
    const refilled = { ...short, visit: null, openDwell: null, lastDwells: [dwell] };
    expect(found(refilled, '12:00')).toContain('medium drainShort');
    expect(found({ ...refilled, visit: visitOf('draining', instant('14:00')) }, '14:01')).toEqual([]);
  });
  it('that retained more than 1,000 mL is the graver alert, once (Int J Nephrol 2011:739794, Table 7)', () => {
    expect(found(drained(1000, null), '10:16')).toEqual(['medium drainShort']);
    expect(found(drained(999, null), '10:16')).toEqual(['high dwellRetained']);
    expect(alertWords(conditions(drained(999, null), '10:16')[0]!, LONDON).next).toMatch(/^Call the physician/);
  });
  it('that was ended on purpose is none', () => {
    const part = dwellOf([drainOf(instant('10:00'), instant('10:15'), { drainedMl: 500, flow: 'notStopped' })], {
      filledMl: 2000,
      drainedMl: 500,
    });
    expect(found(drained(500, 1700, { openDwell: part }), '10:16')).toEqual([]);
  });
});

describe('inside before a fill of 2,000 mL, residual 200', () => {
  // Excess over 25 % of the fill asks, over 50 % stops.
  it.each([
    [700, []],
    [701, ['medium tooMuchInside']],
    [1200, ['medium tooMuchInside']],
    [1201, ['high farTooMuchInside']],
    [null, []],
  ])('by the book %s mL', (bookMl, expected) => {
    expect(found(drained(2350, bookMl), '10:16')).toEqual(expected);
  });
  it('is held against the fill that is inside once it is', () => {
    const fills = [fillOf(instant('10:30'), { filledMl: 1000 })];
    const small = {
      cavity: { state: 'holding', since: instant('10:30'), fills },
      visit: null,
      openDwell: null,
    } as const;
    const { openDwell } = drained(2350, 701);
    const state = drained(2350, 701, { ...small, lastDwells: [openDwell!] });
    expect(found(state, '10:31')).toEqual(['high farTooMuchInside']);
  });
});

it('an empty cavity that is not filled is overdue like a drain', () => {
  const state = bedsideOf({
    cavity: { state: 'empty', since: instant('10:00') },
    prescription: REVISION,
    lastItemId: 'a',
  });
  expect(found(state, '10:39')).toEqual([]);
  expect(found(state, '10:40')).toEqual(['medium fillOverdue']);
  expect(found(state, '10:50')).toEqual(['high fillOverdue']);
});

it('a hold past its review and a telephone order past its countersigning are said, and stay below high', () => {
  const hold = { since: instant('08:00'), reason: 'leak', reviewBy: instant('12:00') };
  const telephone = { physician: 'Dr Imre Solberg', readBack: true } as const;
  const order = orderOf({ what: 'drainNow' }, instant('08:00'), { telephone, countersignBy: instant('13:00') });
  const state = bedsideOf({ cavity: { state: 'empty', since: instant('07:00') }, hold, awaitingCountersign: [order] });
  expect(found(state, '11:59')).toEqual([]);
  expect(found(state, '23:00')).toEqual(['medium holdReviewDue', 'low countersignDue']);
});

describe('words', () => {
  it('say the numbers in the ward’s time', () => {
    const state = dwelling(REVISION, 'a', instant('09:15'));
    expect(alertWords(conditions(state, '14:07')[0]!, LONDON)).toMatchObject({
      title: 'Drain overdue',
      why: 'The drain was due at 13:15; overdue after 24 min, high after 48 min.',
      next: 'Drain, or enter the drain that was missed.',
    });
  });
  it('are there for every kind, with a source, and never show what is missing as a number', () => {
    for (const kind of Object.keys(ALERT_RULES) as AlertKind[]) {
      const words = alertWords({ kind, facts: {} }, LONDON);
      expect(Object.values(words).every((text) => text.length > 0)).toBe(true);
      expect(JSON.stringify(words)).not.toMatch(/undefined|null|NaN/);
    }
  });
});
