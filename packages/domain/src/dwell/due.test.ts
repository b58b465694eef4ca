import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
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
  policyIn,
  revisionOf,
  visitOf,
} from '../testing/bedside.ts';
import { HOUR_MS, MINUTE_MS, minutesBetween } from '../time/instant.ts';

const FOUR_HOURS = revisionOf([byLength('a', 240), byLength('b', 300)]);
const DAY_BY_CLOCK = revisionOf([
  byClock('six', '06:00'),
  byClock('ten', '10:00'),
  byClock('two', '14:00'),
  byClock('ten-pm', '22:00'),
]);

describe('a drain by length', () => {
  it('is due the prescribed minutes after the end of the fill', () => {
    const { due } = dwelling(FOUR_HOURS, 'a', at('2026-11-25T09:15Z'));
    expect(due).toMatchObject({ what: 'drain', dueAt: at('2026-11-25T13:15Z'), rule: 'length', ask: false });
  });

  it('lies the prescribed minutes after the fill for every zone and date, clock changes among them', () => {
    const zones = fc.constantFrom(...Intl.supportedValuesOf('timeZone'));
    const instant = fc.integer({ min: at('2000-01-01T00:00Z'), max: at('2060-01-01T00:00Z') });
    const minutes = fc.integer({ min: 10, max: 1440 });
    fc.assert(
      fc.property(zones, instant, minutes, (zone, filledAt, dwellMinutes) => {
        const policy = policyIn(zone);
        const { due } = dwelling(revisionOf([byLength('a', dwellMinutes)]), 'a', filledAt, {}, policy);
        expect(due?.dueAt).toBe(filledAt + dwellMinutes * MINUTE_MS);
      }),
      { numRuns: 300 },
    );
  });

  it('counts from the last of several fills', () => {
    const fills = [fillOf(at('2026-11-25T09:00Z'), { itemId: 'a' }), fillOf(at('2026-11-25T09:30Z'), { itemId: 'a' })];
    const cavity = { state: 'holding', since: at('2026-11-25T09:00Z'), fills } as const;
    const { due } = dwelling(FOUR_HOURS, 'a', 0, { cavity });
    expect(due?.dueAt).toBe(at('2026-11-25T13:30Z'));
  });

  it('stays as the revision has it that the fill was given under', () => {
    const newer = revisionOf([byLength('a', 60)], { id: 'newer', number: 2 });
    const { due } = dwelling(FOUR_HOURS, 'a', at('2026-11-25T09:15Z'), { prescription: newer });
    expect(due?.dueAt).toBe(at('2026-11-25T13:15Z'));
  });
});

describe('a drain by the clock', () => {
  // Examples of the design: the item of 10:00 dwells until 14:00.
  it.each([
    ['in time', '10:10', '14:00', 'clock'],
    ['late: two hours at least', '13:10', '15:10', 'clockMinimum'],
    ['after its own drain time, never tomorrow', '14:05', '16:05', 'clockMinimum'],
  ])('%s: filled at %s, due at %s', (_, filled, due, rule) => {
    const state = dwelling(DAY_BY_CLOCK, 'ten', at(`2026-11-25T${filled}Z`));
    expect(state.due).toMatchObject({ dueAt: at(`2026-11-25T${due}Z`), rule, ask: false });
  });

  it('dwells as planned and asks when the clock time lies over four hours beyond', () => {
    const { due } = dwelling(DAY_BY_CLOCK, 'ten', at('2026-11-25T04:00Z'));
    expect(due).toMatchObject({ dueAt: at('2026-11-25T08:00Z'), rule: 'clockFar', ask: true });
  });

  it('of less than the ward’s minimum keeps its planned length when it is late', () => {
    const hourly = revisionOf([byClock('ten', '10:00'), byClock('eleven', '11:00')]);
    const { due } = dwelling(hourly, 'ten', at('2026-11-25T10:50Z'));
    expect(due).toMatchObject({ dueAt: at('2026-11-25T11:50Z'), rule: 'clockMinimum' });
  });

  it('goes over midnight to the first item of the day', () => {
    const { due } = dwelling(DAY_BY_CLOCK, 'ten-pm', at('2026-11-25T22:10Z'));
    expect(due?.dueAt).toBe(at('2026-11-26T06:00Z'));
  });

  it('of a single item is due at the same clock time a day later', () => {
    const { due } = dwelling(revisionOf([byClock('one', '08:00')]), 'one', at('2026-11-25T08:10Z'));
    expect(due).toMatchObject({ dueAt: at('2026-11-26T08:00Z'), rule: 'clock' });
  });

  it('is never further than the planned dwell and four hours, nor nearer than the ward allows', () => {
    const clocks = fc.uniqueArray(fc.integer({ min: 0, max: 1439 }), { minLength: 1, maxLength: 6 });
    const instant = fc.integer({ min: at('2026-01-01T00:00Z'), max: at('2026-12-31T00:00Z') });
    fc.assert(
      fc.property(clocks, instant, (minutes, filledAt) => {
        const sorted = minutes.toSorted((a, b) => a - b);
        const items = sorted.map((minute) => byClock(`m${minute}`, clockOf(minute)));
        const { due } = dwelling(revisionOf(items), items[0]!.id, filledAt);
        const planned = (sorted[1] ?? sorted[0]! + 1440) - sorted[0]!;
        const minutesToDue = minutesBetween(filledAt, due!.dueAt);
        expect(minutesToDue).toBeGreaterThanOrEqual(Math.min(planned, 120));
        expect(minutesToDue).toBeLessThanOrEqual(planned + 240);
      }),
      { numRuns: 300 },
    );
  });
});

const clockOf = (minute: number) =>
  `${String(Math.floor(minute / 60)).padStart(2, '0')}:${String(minute % 60).padStart(2, '0')}`;

it('by cycle is due after its dwell, with no minimum', () => {
  const hourly = revisionOf([item('c', { by: 'cycle', fillMinutes: 10, dwellMinutes: 40, drainMinutes: 10 })]);
  const { due } = dwelling(hourly, 'c', at('2026-11-25T09:10Z'));
  expect(due).toMatchObject({ dueAt: at('2026-11-25T09:50Z'), rule: 'cycle' });
});

describe('margins', () => {
  it.each([
    // Planned minutes, then soon before, overdue after, far overdue after: 10 % within 5–30 and 10–60 min.
    [40, 5, 10, 20],
    [240, 24, 24, 48],
    [540, 30, 54, 108],
    [900, 30, 60, 120],
  ])('of a dwell of %i min', (planned, soon, overdue, far) => {
    const { due } = dwelling(revisionOf([byLength('a', planned)]), 'a', 0);
    const apart = [due!.soonAt, due!.overdueAt, due!.farOverdueAt].map((instant) =>
      minutesBetween(due!.dueAt, instant),
    );
    expect(apart).toEqual([-soon, overdue, far]);
  });
});

describe('an order about the dwell inside', () => {
  const filledAt = at('2026-11-25T09:15Z');
  const givenAt = at('2026-11-25T10:00Z');
  const dueWith = (...orders: ReturnType<typeof orderOf>[]) => dwelling(FOUR_HOURS, 'a', filledAt, { orders }).due;

  it('drains now', () => {
    expect(dueWith(orderOf({ what: 'drainNow' }, givenAt))).toMatchObject({ dueAt: givenAt, rule: 'order' });
  });
  it('shortens or extends', () => {
    for (const time of ['11:00', '15:00']) {
      const dueAt = at(`2026-11-25T${time}Z`);
      expect(dueWith(orderOf({ what: 'dueAt', dueAt }, givenAt))?.dueAt).toBe(dueAt);
    }
  });
  it('drains by a time, but not later than the dwell is over', () => {
    const stayEmpty = (time: string) =>
      orderOf(
        { what: 'drainAndStayEmpty', drainBy: at(`2026-11-25T${time}Z`), emptyUntil: at('2026-11-25T23:00Z') },
        givenAt,
      );
    expect(dueWith(stayEmpty('12:00'))?.dueAt).toBe(at('2026-11-25T12:00Z'));
    expect(dueWith(stayEmpty('20:00'))?.dueAt).toBe(at('2026-11-25T13:15Z'));
  });
  it('samples after so long a dwell', () => {
    expect(dueWith(orderOf({ what: 'sample', dwellMinutes: 120, sample: 'cell count' }, givenAt))?.dueAt).toBe(
      at('2026-11-25T11:15Z'),
    );
  });
  it('has no say in a later dwell', () => {
    const before = filledAt - HOUR_MS;
    expect(dueWith(orderOf({ what: 'drainNow' }, before))?.rule).toBe('length');
    expect(dueWith(orderOf({ what: 'dueAt', dueAt: filledAt + HOUR_MS }, before))?.rule).toBe('length');
  });
  it('that came last has the last word', () => {
    const dueAt = at('2026-11-25T16:00Z');
    const due = dueWith(orderOf({ what: 'drainNow' }, givenAt), orderOf({ what: 'dueAt', dueAt }, givenAt + 1));
    expect(due?.dueAt).toBe(dueAt);
  });
  it('that gave the fill tells its dwell: one exchange of so long, a rinse none at all', () => {
    const withFill = (content: Parameters<typeof orderOf>[0]) => {
      const cavity = { state: 'holding', since: filledAt, fills: [fillOf(filledAt, { orderId: 'order' })] } as const;
      return dwelling(FOUR_HOURS, 'a', filledAt, { cavity, orders: [orderOf(content, filledAt - HOUR_MS)] }).due;
    };
    const one = {
      what: 'oneExchange',
      solutionId: 'glucose-3.86',
      fillMl: 1500,
      dwellMinutes: 90,
      additives: [],
    } as const;
    expect(withFill(one)?.dueAt).toBe(at('2026-11-25T10:45Z'));
    expect(withFill({ what: 'rinse', solutionId: 'glucose-1.36', volumeMl: 1000, rinses: 3 })?.dueAt).toBe(filledAt);
  });
});

describe('hold and discontinue', () => {
  const hold = { since: at('2026-11-25T10:00Z'), reason: 'leak', reviewBy: at('2026-11-26T10:00Z') };
  it('never stop the drain of what is inside', () => {
    const expected = { what: 'drain', dueAt: at('2026-11-25T13:15Z') };
    expect(dwelling(FOUR_HOURS, 'a', at('2026-11-25T09:15Z'), { hold }).due).toMatchObject(expected);
    expect(dwelling(FOUR_HOURS, 'a', at('2026-11-25T09:15Z'), { discontinuedAt: 1 }).due).toMatchObject(expected);
  });
  it('a hold of an empty cavity is due for review', () => {
    const cavity = { state: 'empty', since: at('2026-11-25T09:00Z') } as const;
    const { due } = bedsideOf({ cavity, hold, prescription: FOUR_HOURS });
    expect(due).toMatchObject({ what: 'review', dueAt: hold.reviewBy, rule: 'holdReview' });
  });
  it('a discontinued prescription asks for no fill', () => {
    expect(empty({ discontinuedAt: at('2026-11-25T08:00Z') })).toBeNull();
  });
});

const empty = (change: Parameters<typeof bedsideOf>[0]) =>
  bedsideOf({
    cavity: { state: 'empty', since: at('2026-11-25T09:00Z') },
    prescription: FOUR_HOURS,
    lastItemId: 'a',
    ...change,
  }).due;

describe('the next fill of an empty cavity', () => {
  it('is due 30 min after the drain', () => {
    expect(empty({})).toMatchObject({ what: 'fill', dueAt: at('2026-11-25T09:30Z'), rule: 'afterDrain' });
  });
  it('is due when the order to stay empty ends', () => {
    const emptyUntil = at('2026-11-25T11:00Z');
    const orders = [orderOf({ what: 'drainAndStayEmpty', drainBy: at('2026-11-25T08:30Z'), emptyUntil }, 0)];
    expect(empty({ orders })).toMatchObject({ what: 'fill', dueAt: emptyUntil, rule: 'orderUntil' });
  });
  it('is due at the next item’s clock time', () => {
    const due = empty({ prescription: DAY_BY_CLOCK, lastItemId: 'ten' });
    expect(due).toMatchObject({ dueAt: at('2026-11-25T14:00Z'), rule: 'nextItem' });
  });
  it('is owed at once when that time has just passed', () => {
    const cavity = { state: 'empty', since: at('2026-11-25T14:20Z') } as const;
    const due = empty({ cavity, prescription: DAY_BY_CLOCK, lastItemId: 'ten' });
    expect(due).toMatchObject({ dueAt: at('2026-11-25T14:50Z'), rule: 'afterDrain' });
  });
  it('counts from when it was first prescribed, or the hold lifted', () => {
    const first = revisionOf([byLength('a', 240)], { prescribedAt: at('2026-11-25T12:00Z') });
    expect(empty({ prescription: first, lastItemId: null })?.dueAt).toBe(at('2026-11-25T12:30Z'));
    expect(empty({ keptEmptyUntil: at('2026-11-25T15:00Z') })?.dueAt).toBe(at('2026-11-25T15:30Z'));
  });
  it('is not due where nothing is prescribed', () => {
    expect(empty({ prescription: null })).toBeNull();
  });
});

describe('what a drain left behind', () => {
  const filledAt = at('2026-11-25T09:15Z');
  const after = (from: string, to: string, flow: 'stopped' | 'notStopped' = 'stopped') => {
    const drain = drainOf(at(`2026-11-25T${from}Z`), at(`2026-11-25T${to}Z`), { flow });
    return dwelling(FOUR_HOURS, 'a', filledAt, { lastDwells: [dwellOf([drain])] }).due;
  };
  it('is due again 30 min after that drain, when the dwell was over', () => {
    expect(after('13:20', '13:40')).toMatchObject({
      what: 'drain',
      dueAt: at('2026-11-25T14:10Z'),
      rule: 'afterDrain',
    });
  });
  it('dwells on to its time after a part was drained early', () => {
    expect(after('10:00', '10:10', 'notStopped')).toMatchObject({ dueAt: at('2026-11-25T13:15Z'), rule: 'length' });
  });
  it('is not told from the drain of the dwell before', () => {
    expect(after('08:40', '09:00')).toMatchObject({ dueAt: at('2026-11-25T13:15Z'), rule: 'length' });
  });
});

describe('fluid of which nobody prescribed the dwell', () => {
  it('falls due after the shortest prescribed dwell, and asks', () => {
    const cavity = { state: 'unknown', since: at('2026-11-25T09:00Z') } as const;
    const { due } = bedsideOf({ cavity, prescription: FOUR_HOURS });
    expect(due).toMatchObject({ what: 'drain', dueAt: at('2026-11-25T13:00Z'), ask: true });
  });
  it('has no time without a prescription', () => {
    expect(bedsideOf({ cavity: { state: 'unknown', since: 0 } }).due).toBeNull();
  });
});

it('nothing is due while a drain or a fill is under way, nor off the books', () => {
  for (const state of ['draining', 'drained', 'filling'] as const) {
    expect(dwelling(FOUR_HOURS, 'a', 0, { visit: visitOf(state, HOUR_MS) }).due).toBeNull();
  }
  expect(dwelling(FOUR_HOURS, 'a', 0, { visit: visitOf('preparing', HOUR_MS) }).due).not.toBeNull();
  expect(dwelling(FOUR_HOURS, 'a', 0, { stay: null }).due).toBeNull();
});
