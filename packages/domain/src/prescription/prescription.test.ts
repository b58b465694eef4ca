import { describe, expect, it } from 'vitest';
import type { Payloads } from '../record/entry.ts';
import { at, bedsideOf, byClock, byLength, dwelling, item, LONDON, orderOf, revisionOf } from '../testing/bedside.ts';
import { bagFor } from './bag-for.ts';
import { revisionChanges } from './changes.ts';
import { nextItem } from './next-item.ts';
import { orderProblems, orderTimeProblems } from './order-problems.ts';
import type { OrderContent, PatientLimits, PrescriptionItem } from './prescription.ts';
import { prescriptionProblems } from './problems.ts';

const DAY = revisionOf([byLength('a', 240), byLength('b', 240), byLength('c', 540)]);
const NONE = DAY.limits;

describe('the next item', () => {
  it('goes round the day, from the first where the last one is not of this revision', () => {
    expect([null, 'a', 'c', 'gone'].map((last) => nextItem(DAY, last)?.id)).toEqual(['a', 'b', 'a', 'a']);
    expect(nextItem(revisionOf([]), null)).toBeNull();
  });
});

describe('the next bag', () => {
  const NOON = at('2026-11-25T12:00Z');
  const content = {
    what: 'oneExchange',
    solutionId: 'glucose-3.86',
    fillMl: 1500,
    dwellMinutes: null,
    additives: [],
  } as const;

  it('is that of the item after the last one', () => {
    expect(bagFor(dwelling(DAY, 'a', NOON), LONDON)).toMatchObject({ itemId: 'b', orderId: null, dwellMinutes: 240 });
  });
  it('is that of an open order, in the place of the item', () => {
    const bag = bagFor(dwelling(DAY, 'a', NOON, { orders: [orderOf(content, NOON)] }), LONDON);
    expect(bag).toMatchObject({ solutionId: 'glucose-3.86', fillMl: 1500, orderId: 'order', itemId: 'b' });
  });
  it('is the item’s again once the ordered fill is inside', () => {
    const state = dwelling(DAY, 'a', NOON, { orders: [orderOf(content, NOON)] });
    if (state.cavity.state !== 'holding') throw new Error('holding');
    const fills = state.cavity.fills.map((fill) => ({ ...fill, orderId: 'order' }));
    expect(bagFor({ ...state, cavity: { ...state.cavity, fills } }, LONDON)?.orderId).toBeNull();
  });
  it('is none under a hold, nor after the prescription was discontinued', () => {
    const hold = { since: NOON, reason: 'leak', reviewBy: NOON };
    expect(bagFor(dwelling(DAY, 'a', NOON, { hold, orders: [orderOf(content, NOON)] }), LONDON)).toBeNull();
    expect(bagFor(dwelling(DAY, 'a', NOON, { discontinuedAt: NOON }), LONDON)).toBeNull();
  });
  it('by the clock, with no fill before, is that of the nearest time', () => {
    const clocks = revisionOf([byClock('six', '06:00'), byClock('two', '14:00'), byClock('ten', '22:00')]);
    const state = bedsideOf({ cavity: { state: 'empty', since: at('2026-11-25T15:00Z') }, prescription: clocks });
    expect(bagFor(state, LONDON)?.itemId).toBe('two');
  });
});

describe('what is wrong with a prescription', () => {
  const check = (items: readonly PrescriptionItem[], limits: Partial<PatientLimits> = {}) =>
    prescriptionProblems({ items, limits: { ...NONE, ...limits }, acute: false, note: null, reviewBy: null }, LONDON);
  const codes = (...args: Parameters<typeof check>) => check(...args).map(({ code, field }) => `${code} ${field}`);

  it('is nothing, for an ordinary day', () => {
    expect(check(DAY.items, { mostInsideMl: 2600 })).toEqual([]);
    expect(check([byClock('a', '22:00'), byClock('b', '06:00'), byClock('c', '14:00')])).toEqual([]);
  });
  it('is told with field, value and range', () => {
    expect(check([item('a', { by: 'length', dwellMinutes: 5 }, { fillMl: 5001 })])).toEqual([
      expect.objectContaining({
        field: 'items[0].fillMl',
        value: 5001,
        message: 'items[0].fillMl is 5001; allowed is 1 to 5000 mL.',
      }),
      expect.objectContaining({ field: 'items[0].dwell.dwellMinutes', value: 5, allowed: '10 to 1440 min' }),
    ]);
  });
  it.each([
    [[], 'out-of-range items'],
    [[byLength('a', 240), byLength('a', 240)], 'twice items'],
    [[byLength('a', 240), byClock('b', '06:00')], 'mixed-timing items'],
    [[byClock('a', '24:00')], 'not-a-clock-time items[0].dwell.at'],
    [[byClock('a', '06:00'), byClock('b', '06:00')], 'clock-order items'],
    [[byClock('a', '06:00'), byClock('b', '22:00'), byClock('c', '14:00')], 'clock-order items'],
    [[item('a', { by: 'length', dwellMinutes: 240 }, { solutionId: 'none' })], 'unknown-solution items[0].solutionId'],
    [[item('a', { by: 'length', dwellMinutes: Number.NaN })], 'out-of-range items[0].dwell.dwellMinutes'],
  ])('%j: %s', (items, expected) => expect(codes(items)).toContain(expected));

  it('limits belong together and stand in order', () => {
    expect(codes(DAY.items, { overRemovalMl: 2000 })).toEqual(['missing limits.overRemovalHours']);
    expect(codes(DAY.items, { systolicLowMmHg: 160, systolicHighMmHg: 100 })).toEqual([
      'out-of-order limits.systolicLowMmHg',
    ]);
  });
});

describe('what is wrong with an order', () => {
  const GIVEN = at('2026-11-25T12:00Z');
  const order = (content: OrderContent, telephone: Payloads['ordered']['telephone'] = null) => ({
    content,
    note: null,
    telephone,
  });
  const codes = (...args: Parameters<typeof order>) =>
    orderProblems(order(...args), LONDON).map(({ code, field }) => `${code} ${field}`);

  it.each<[OrderContent, string[]]>([
    [{ what: 'drainNow' }, []],
    [{ what: 'drainAndStayEmpty', drainBy: GIVEN, emptyUntil: GIVEN }, ['out-of-order content.emptyUntil']],
    [
      { what: 'rinse', solutionId: 'none', volumeMl: 0, rinses: 0 },
      ['unknown-solution content.solutionId', 'out-of-range content.volumeMl', 'out-of-range content.rinses'],
    ],
    [{ what: 'sample', dwellMinutes: 120, sample: ' ' }, ['missing content.sample']],
    [{ what: 'partialDrain', volumeMl: 6001 }, ['out-of-range content.volumeMl']],
    [{ what: 'oneExchange', solutionId: 'glucose-1.36', fillMl: 1000, dwellMinutes: null, additives: [] }, []],
  ])('%j: %j', (content, expected) => expect(codes(content)).toEqual(expected));

  it('by telephone names who gave it', () => {
    expect(codes({ what: 'drainNow' }, { physician: ' ', readBack: true })).toEqual(['missing telephone.physician']);
    expect(codes({ what: 'drainNow' }, { physician: 'Dr Imre Solberg', readBack: true })).toEqual([]);
  });
  it('has its times ahead of when it is given', () => {
    const fields = (dueAt: number) =>
      orderTimeProblems(order({ what: 'dueAt', dueAt }), GIVEN, LONDON).map((p) => p.field);
    expect([fields(GIVEN - 1), fields(GIVEN), fields(GIVEN + 49 * 3_600_000)]).toEqual([
      ['content.dueAt'],
      [],
      ['content.dueAt'],
    ]);
  });
});

describe('what changes between two revisions', () => {
  const words = (after: readonly PrescriptionItem[], limits: Partial<PatientLimits> = {}) =>
    revisionChanges(DAY, { ...DAY, items: after, limits: { ...NONE, ...limits } }, LONDON).map((one) => one.words);

  it('is nothing between the same', () => {
    expect(words(DAY.items)).toEqual([]);
  });
  it('is said exchange by exchange, then the limits', () => {
    const [a, b, c] = DAY.items as [PrescriptionItem, PrescriptionItem, PrescriptionItem];
    expect(
      words([a, { ...b, solutionId: 'glucose-1.36', fillMl: 1500 }, { ...c, dwell: { by: 'clock', at: '06:00' } }], {
        mostInsideMl: 2800,
      }),
    ).toEqual([
      'Exchange 2: strength 1.5 % instead of 2.5 %',
      'Exchange 2: fill 1,500 mL instead of 2,000 mL',
      'Exchange 3: dwell at 06:00 instead of 9 h',
      'most inside 2,800 mL, new',
    ]);
  });
  it('says when it is reviewed, in the ward’s own time', () => {
    const july = { ...DAY, reviewBy: at('2026-07-01T11:00Z') };
    const said = (before: typeof DAY, after: typeof DAY) =>
      revisionChanges(before, after, LONDON).map((one) => one.words);
    expect(said(DAY, july)).toEqual(['review by 01-Jul-2026 12:00, new']);
    expect(said(july, DAY)).toEqual(['review by ended, was 01-Jul-2026 12:00']);
  });
  it('says what came and what went', () => {
    const [a, b] = DAY.items as [PrescriptionItem, PrescriptionItem];
    expect(words([a, b])).toEqual(['Exchange 3: exchange ended, was 2,000 mL of 2.5 %, 9 h']);
    expect(words([...DAY.items, byLength('d', 60)])).toEqual(['Exchange 4: exchange 2,000 mL of 2.5 %, 1 h, new']);
  });
});
