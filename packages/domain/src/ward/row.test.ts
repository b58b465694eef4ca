import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { anyBedside } from '../testing/arbitrary.ts';
import {
  at,
  bedsideOf,
  byClock,
  byLength,
  drainOf,
  dwelling,
  dwellOf,
  fillOf,
  item,
  orderOf,
  revisionOf,
  visitOf,
} from '../testing/bedside.ts';
import { rowOf } from '../testing/row.ts';
import { HOUR_MS } from '../time/instant.ts';
import { wallRow } from './row.ts';

const instant = (clock: string) => at(`2026-11-25T${clock}Z`);
const TWO = revisionOf([byLength('a', 240), byLength('b', 240)]);
const HOURLY = revisionOf([item('c', { by: 'cycle', fillMinutes: 10, dwellMinutes: 40, drainMinutes: 10 })]);

describe('a row', () => {
  const row = rowOf(dwelling(TWO, 'a', instant('09:15')));

  it('says what is inside and what comes next', () => {
    expect(row.insideStrength).toBe('2.5 %');
    expect(row.next).toEqual({
      solution: '2.5 % dextrose (2.27 % glucose)',
      strength: '2.5 %',
      fillMl: 2000,
      doubts: [],
    });
  });
  it('plans the drains after the one that is due: 30 min at the bed, then the dwell', () => {
    expect(row.laterDrainsAt).toEqual([instant('17:45')]);
  });
  it('by the clock keeps to the clock times', () => {
    const clocks = revisionOf([byClock('a', '06:00'), byClock('b', '12:00'), byClock('c', '18:00')]);
    const byTheClock = rowOf(dwelling(clocks, 'a', instant('06:10')));
    expect(byTheClock.due?.dueAt).toBe(instant('12:00'));
    expect(byTheClock.laterDrainsAt).toEqual([instant('18:00')]);
  });
  it('plans cycles hour by hour and says which runs', () => {
    const state = dwelling(HOURLY, 'c', instant('09:10'));
    const cycles = rowOf({ ...state, day: { ...state.day, exchanges: 7 } });
    expect(cycles.cycle).toEqual({ number: 8, minutes: 60 });
    expect(cycles.laterDrainsAt).toEqual(
      ['10', '11', '12', '13', '14', '15', '16', '17'].map((h) => instant(`${h}:50`)),
    );
  });
  it('plans nothing under a hold', () => {
    const hold = { since: 0, reason: 'leak', reviewBy: instant('20:00') };
    const held = rowOf(dwelling(TWO, 'a', instant('09:15'), { hold }));
    expect([held.laterDrainsAt, held.next]).toEqual([[], null]);
    expect(held.due?.what).toBe('drain');
  });
  it('takes the bag of an order before the item', () => {
    const content = {
      what: 'oneExchange',
      solutionId: 'glucose-3.86',
      fillMl: 1500,
      dwellMinutes: null,
      additives: [],
    } as const;
    const ordered = rowOf(dwelling(TWO, 'a', instant('09:15'), { orders: [orderOf(content, instant('10:00'))] }));
    expect(ordered.next).toMatchObject({ strength: '4.25 %', fillMl: 1500 });
  });
  it('names every strength of a mixed cavity, and one that is not known', () => {
    const fills = [fillOf(1), fillOf(2, { solutionId: null })];
    expect(rowOf(bedsideOf({ cavity: { state: 'holding', since: 1, fills } })).insideStrength).toBe(
      '2.5 % + strength not known',
    );
  });
});

describe('on the wall', () => {
  it('nobody reads a name, a date of birth, a number, nor what is wrong', () => {
    const hold = { since: 0, reason: 'exit-site leak', reviewBy: instant('20:00') };
    const offWard = { since: 0, where: 'imaging', backAbout: null };
    const vancomycin = {
      what: 'vancomycin',
      amount: 2,
      unit: 'g',
      kind: 'antibiotic',
      minimumDwellMinutes: 360,
    } as const;
    const fills = [fillOf(instant('09:15'), { additives: [vancomycin] })];
    const cavity = { state: 'holding', since: instant('09:15'), fills } as const;
    const state = { ...dwelling(TWO, 'a', instant('09:15'), { hold }), cavity };
    const wall = wallRow(rowOf({ ...state, stay: { ...state.stay!, offWard } }));
    expect(wall.initials).toBe('B. I.');
    expect(JSON.stringify(wall)).not.toMatch(/BRANNOCK|Isolde|1953|204655|leak|imaging|vancomycin/);
    expect(wall.due).toEqual(state.due);
  });
});

describe('the ribbon', () => {
  const drain = drainOf(instant('09:00'), instant('09:15'), { drainedMl: 2200 });
  const before = {
    bookMl: 200,
    flowMl: 200,
    flowVarianceMl2: 1e4,
    ufCorrectionMl: 0,
    correctionFrom: null,
    sinceEmpty: null,
  };
  const fill = fillOf(instant('05:00'));
  const drainedDwell = dwellOf([drain], { fills: [fill], filledMl: 2000, before });

  it('follows fill, dwell, drain, the empty minutes and the dwell that goes on', () => {
    const fills = [fillOf(instant('09:30'), { startedAt: instant('09:20'), entryId: 'second', itemId: 'b' })];
    const cavity = { state: 'holding', since: instant('09:30'), fills } as const;
    const state = bedsideOf({ cavity, lastDwells: [drainedDwell], inside: { ...before, flowMl: 180 } });
    expect(rowOf(state).ribbon).toEqual([
      { from: instant('05:00'), to: instant('09:00'), as: 'dwelling', fromMl: 2200, toMl: 2200 },
      { from: instant('09:00'), to: instant('09:15'), as: 'draining', fromMl: 2200, toMl: 180 },
      { from: instant('09:15'), to: instant('09:20'), as: 'empty', fromMl: 180, toMl: 180 },
      { from: instant('09:20'), to: instant('09:30'), as: 'filling', fromMl: 180, toMl: 2180 },
      { from: instant('09:30'), to: null, as: 'dwelling', fromMl: 2180, toMl: 2180 },
    ]);
  });
  it('ends with the drain that runs, whose volume nobody knows yet', () => {
    const running = dwellOf([drainOf(instant('09:00'), null)], { fills: [fill], filledMl: 2000, before });
    const cavity = { state: 'holding', since: instant('05:00'), fills: [fill] } as const;
    const state = bedsideOf({ cavity, openDwell: running, visit: visitOf('draining', instant('09:00')) });
    expect(rowOf(state).ribbon.at(-1)).toEqual({
      from: instant('09:00'),
      to: null,
      as: 'draining',
      fromMl: 2200,
      toMl: null,
    });
  });
  it('shows an unknown volume as not known, never as zero', () => {
    const cavity = { state: 'holding', since: 1, fills: [fillOf(1, { filledMl: null })] } as const;
    expect(rowOf(bedsideOf({ cavity })).ribbon.at(-1)).toMatchObject({ as: 'dwelling', fromMl: null, toMl: null });
  });
  it('of any bedside goes on with exactly one piece', () => {
    fc.assert(
      fc.property(anyBedside, (state) => {
        const { ribbon } = rowOf(state);
        expect(ribbon.filter((piece) => piece.to === null)).toHaveLength(1);
      }),
    );
  });
});

it('a row of any bedside is bounded: at most eight hours of later drains', () => {
  fc.assert(
    fc.property(anyBedside, (state) => {
      const { laterDrainsAt, due } = rowOf(state);
      const from = due?.dueAt ?? state.visit?.since ?? 0;
      for (const drainAt of laterDrainsAt) expect(drainAt - from).toBeLessThanOrEqual(8 * HOUR_MS);
    }),
  );
});
