import { describe, expect, it } from 'vitest';
import type { BedsideState } from '../bedside/state.ts';
import { at, bedsideOf, byLength, dwelling, LONDON, orderOf, revisionOf } from '../testing/bedside.ts';
import { Course, minute } from '../testing/course.ts';
import { HOUR_MS } from '../time/instant.ts';
import { formatClock } from '../words/numbers.ts';
import { orderProblems, orderTimeProblems } from './order-problems.ts';
import type { Away, OrderContent } from './prescription.ts';
import { stayEmptyOf, stayEmptyWords } from './stay-empty.ts';

// Expected values: the words of the ward for one way to imaging (common practice), not the product's own output.

const clock = (of: number) => formatClock(of, 'Europe/London');
const time = (hhmm: string) => at(`2026-11-25T${hhmm}Z`);
const IMAGING: Away = {
  where: 'imaging',
  why: 'tunnel of the catheter',
  leavesAt: time('14:00'),
  backAt: time('15:30'),
};
const order = (change: Partial<Extract<OrderContent, { what: 'drainAndStayEmpty' }>> = {}) => ({
  content: {
    what: 'drainAndStayEmpty',
    drainBy: time('13:30'),
    emptyUntil: time('15:30'),
    away: IMAGING,
    ...change,
  } as const,
  note: null,
  telephone: null,
});

describe('an order to go to theatre or imaging', () => {
  const found = (change: Parameters<typeof order>[0]) =>
    orderProblems(order(change), LONDON).map(({ code, field, value }) => [code, field, value]);

  it('is drained by the time of leaving at the latest, back after it, empty until then', () => {
    expect(found({})).toEqual([]);
    expect(found({ drainBy: time('14:00') })).toEqual([]);
    expect(found({ drainBy: time('14:01') })).toEqual([['out-of-order', 'content.drainBy', time('14:01')]]);
    expect(found({ away: { ...IMAGING, backAt: time('14:00') } })).toEqual([
      ['out-of-order', 'content.away.backAt', time('14:00')],
    ]);
    expect(found({ emptyUntil: time('15:29') })).toEqual([['out-of-order', 'content.emptyUntil', time('15:29')]]);
  });
  it('says where and what for', () => {
    expect(found({ away: { ...IMAGING, where: ' ', why: '' } })).toEqual([
      ['missing', 'content.away.where', ''],
      ['missing', 'content.away.why', ''],
    ]);
  });
  it('names the allowed range, as an instant', () => {
    expect(orderProblems(order({ drainBy: time('14:01') }), LONDON)[0]?.allowed).toBe(
      'not later than content.away.leavesAt, 2026-11-25T14:00:00.000Z',
    );
  });
  it('lies ahead of when it is given, and not farther than twice the longest dwell', () => {
    const fields = (givenAt: number, change = {}) =>
      orderTimeProblems(order(change), givenAt, LONDON).map(({ field }) => field);
    expect(fields(time('13:30'))).toEqual([]);
    expect(fields(time('14:10'))).toEqual(['content.drainBy', 'content.away.leavesAt']);
    const far = time('13:30') + 2 * LONDON.settings.dwellMostMinutes * 60_000 + 1;
    expect(fields(time('13:30'), { away: { ...IMAGING, backAt: far }, emptyUntil: far })).toEqual([
      'content.away.backAt',
      'content.emptyUntil',
    ]);
  });
});

describe('what the board says of it', () => {
  const state = (cavity: BedsideState['cavity'], content: OrderContent = order().content) =>
    bedsideOf({ cavity, orders: [orderOf(content, time('12:00'))] });
  const words = (of: BedsideState) => stayEmptyWords(stayEmptyOf(of)!, of.cavity, clock);
  const empty = { state: 'empty', since: time('13:20') } as const;

  it('is by when to be empty and where the patient goes, then until when to stay so', () => {
    const holding = dwelling(revisionOf([byLength('a', 240)]), 'a', time('10:00'));
    expect(words(state(holding.cavity))).toBe('Empty by 13:30: imaging 14:00');
    expect(words(state({ state: 'unknown', since: time('10:00') }))).toBe('Empty by 13:30: imaging 14:00');
    expect(words(state(empty))).toBe('Stays empty until 15:30: imaging 14:00, back about 15:30');
  });
  it('needs no place', () => {
    const plain = { what: 'drainAndStayEmpty', drainBy: time('13:30'), emptyUntil: time('15:30') } as const;
    expect(words(state(empty, plain))).toBe('Stays empty until 15:30');
    expect(words(state({ state: 'unknown', since: time('10:00') }, plain))).toBe('Empty by 13:30 and until 15:30');
  });
  it('is nothing once the order ended, or was of an earlier emptiness', () => {
    expect(stayEmptyOf({ ...state(empty), orders: [] })).toBeNull();
    expect(stayEmptyOf({ ...state(empty), cavity: { state: 'empty', since: time('15:30') } })).toBeNull();
  });
});

describe('coming back', () => {
  /** Filled at minute 13, ordered empty until minute 500, drained by minute 218. */
  const away = () => {
    const course = new Course().admit(0).firstFill(5, 2000);
    const content = order({
      drainBy: minute(220),
      emptyUntil: minute(500),
      away: { ...IMAGING, leavesAt: minute(230), backAt: minute(500) },
    }).content;
    const given = course.write('ordered', { content, note: null, telephone: null }, 30, { visitId: null });
    course.drainOnly(200, 2100);
    course.write('close', { leftEmpty: true }, 222);
    course.write('leftWard', { where: 'imaging', backAbout: minute(500) }, 230, { visitId: null });
    return { course, given };
  };

  it('leaves the order in force: the fill is due when it says', () => {
    const { course } = away();
    course.write('returned', {}, 400, { visitId: null });
    expect(course.state()).toMatchObject({
      stay: { offWard: null },
      due: { what: 'fill', dueAt: minute(500), rule: 'orderUntil' },
    });
  });
  it('with the order ended owes the fill from then on, not from the old drain', () => {
    const { course, given } = away();
    course.write('returned', {}, 400, { visitId: null });
    course.write('orderEnded', { orderId: given.id, why: 'done', reason: null }, 400, { visitId: null });
    // 30 min: the ward's time from a drain to the next fill (fillAfterDrainMinutes; common practice).
    expect(course.state().due).toMatchObject({ what: 'fill', dueAt: minute(430), rule: 'afterDrain' });
    expect(stayEmptyOf(course.state())).toBeNull();
  });
  it('of an order that was withdrawn with fluid inside changes nothing of the next fill', () => {
    const course = new Course().admit(0).firstFill(5, 2000);
    const given = course.write('ordered', order({ drainBy: minute(100), emptyUntil: minute(900) }), 30);
    course.write('orderEnded', { orderId: given.id, why: 'withdrawn', reason: 'cancelled' }, 40);
    expect(course.state().keptEmptyUntil).toBeNull();
    expect(course.state().due).toMatchObject({ what: 'drain', dueAt: minute(18) + 4 * HOUR_MS });
  });
});
