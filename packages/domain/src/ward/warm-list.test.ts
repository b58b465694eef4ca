import { describe, expect, it } from 'vitest';
import type { OrderContent } from '../prescription/prescription.ts';
import { at, bedsideOf, byLength, dwelling, item, orderOf, revisionOf } from '../testing/bedside.ts';
import { rowOf } from '../testing/row.ts';
import { HOUR_MS, MINUTE_MS } from '../time/instant.ts';
import { wallRow } from './row.ts';
import { warmList } from './warm-list.ts';

const NOW = at('2026-11-25T14:07Z');
const ONE = revisionOf([byLength('a', 240)]);
const inMinutes = (minutes: number) => NOW + minutes * MINUTE_MS;
type Change = Parameters<typeof dwelling>[3];
/** A bed whose four-hour dwell is over in so many minutes. */
const row = (bed: string, minutes: number, revision = ONE, last = 'a', change: Change = {}) => ({
  ...rowOf(dwelling(revision, last, inMinutes(minutes) - 4 * HOUR_MS, change)),
  bed,
});
const list = (...rows: ReturnType<typeof row>[]) => warmList(rows, NOW, NOW + 2 * HOUR_MS);
const BAG = { solution: '2.5 % dextrose (2.27 % glucose)', strength: '2.5 %', fillMl: 2000, doubts: [] };

describe('the bags to warm', () => {
  it('are those of the next two hours, by time', () => {
    expect(list(row('1', 90), row('2', 20), row('3', 130)).bags).toEqual([
      { at: inMinutes(20), bed: '2', ...BAG },
      { at: inMinutes(90), bed: '1', ...BAG },
    ]);
  });

  it('are wanted first where a drain is over its time and nobody has begun; who has begun has a bag in hand', () => {
    const visit = { id: 'visit', state: 'preparing', purpose: 'exchange', since: NOW, startedAt: NOW, startedBy: 'n' };
    const begun = { ...row('4', -10), visit } as ReturnType<typeof row>;
    expect(list(row('1', 20), row('2', -63), begun).bags.map(({ bed }) => bed)).toEqual(['2', '1']);
  });

  const doubts = (...args: Parameters<typeof row>) => list(row(...args)).bags[0]?.doubts;
  const strong = item('b', { by: 'length', dwellMinutes: 240 }, { solutionId: 'glucose-3.86' });

  it('say the choice that the physician left to the bedside, in the physician’s words', () => {
    const condition = 'over 72 kg → 2.5 %';
    const revision = revisionOf([byLength('a', 240), { ...strong, condition }]);
    expect(doubts('1', 30, revision)).toEqual([{ why: 'condition', condition }]);
    // The bag after that one has no condition.
    expect(doubts('1', 30, revision, 'b')).toEqual([]);
  });
  it('say which others it may be where the last fill is none of the exchanges prescribed now', () => {
    expect(doubts('1', 30, revisionOf([byLength('a', 240), strong]), 'of an earlier revision')).toEqual([
      { why: 'whichItem', others: [{ strength: '4.25 %', fillMl: 2000 }] },
    ]);
  });
  it('are certain where every exchange has the same bag', () => {
    expect(doubts('1', 30, revisionOf([byLength('a', 240), byLength('b', 240)]), 'earlier')).toEqual([]);
  });
  it('say so where several orders name different bags', () => {
    const one = { what: 'oneExchange', dwellMinutes: null, additives: [], fillMl: 1500 } as const;
    const ordered = (solutionId: string, id: string) => orderOf({ ...one, solutionId }, inMinutes(-60), { id });
    const orders = [ordered('glucose-1.36', 'first'), ordered('glucose-3.86', 'second')];
    expect(list(row('1', 30, ONE, 'a', { orders })).bags).toMatchObject([
      { strength: '1.5 %', doubts: [{ why: 'severalOrders', others: [{ strength: '4.25 %', fillMl: 1500 }] }] },
    ]);
    expect(doubts('1', 30, ONE, 'a', { orders: orders.slice(1) })).toEqual([]);
  });
});

describe('no bag', () => {
  it('is warmed after a drain on hold, or with nothing prescribed, and that is said', () => {
    const hold = { since: NOW, reason: 'leak', reviewBy: inMinutes(300) };
    const stopped = { discontinuedAt: inMinutes(-10) };
    expect(list(row('1', 40, ONE, 'a', { hold }), row('2', 30, ONE, 'a', stopped))).toEqual({
      bags: [],
      without: [
        { at: inMinutes(30), bed: '2', why: 'notPrescribed' },
        { at: inMinutes(40), bed: '1', why: 'hold', reviewBy: inMinutes(300) },
      ],
    });
  });
  it('is warmed for a drain after which the cavity stays empty by order, but for when that ends', () => {
    const until = (minutes: number): { orders: readonly ReturnType<typeof orderOf>[] } => {
      const content: OrderContent = {
        what: 'drainAndStayEmpty',
        drainBy: inMinutes(30),
        emptyUntil: inMinutes(minutes),
      };
      return { orders: [orderOf(content, inMinutes(-5))] };
    };
    expect(list(row('1', 90, ONE, 'a', until(200)))).toEqual({
      bags: [],
      without: [{ at: inMinutes(30), bed: '1', why: 'stayEmpty', until: inMinutes(200) }],
    });
    expect(list(row('1', 90, ONE, 'a', until(100)))).toEqual({
      bags: [{ at: inMinutes(100), bed: '1', ...BAG }],
      without: [],
    });
    const cavity = { state: 'empty', since: inMinutes(-10) } as const;
    const empty = rowOf(bedsideOf({ cavity, prescription: ONE, lastItemId: 'a', ...until(100) }));
    expect(warmList([empty], NOW, NOW + 2 * HOUR_MS).bags).toMatchObject([{ at: inMinutes(100) }]);
  });
});

it('the wall shows no words of a prescription', () => {
  const revision = revisionOf([{ ...byLength('a', 240), condition: 'over 72 kg → 2.5 %' }]);
  expect(JSON.stringify(wallRow(row('1', 30, revision)))).not.toContain('72 kg');
});
