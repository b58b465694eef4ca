import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { at, byLength, dwelling, revisionOf } from '../testing/bedside.ts';
import { rowOf } from '../testing/row.ts';
import { HOUR_MS, MINUTE_MS } from '../time/instant.ts';
import { clashes, workload } from './workload.ts';

const NOW = at('2026-11-25T14:07Z');
const REVISION = revisionOf([byLength('a', 240)]);
const row = (bed: string, dueAt: number, nurse: string | null) => ({
  ...rowOf(dwelling(REVISION, 'a', dueAt - 4 * HOUR_MS)),
  bed,
  nurse: nurse === null ? null : { accountId: nurse, name: nurse, from: 0, to: Number.MAX_SAFE_INTEGER },
});
const minutes = (...of: number[]) => of.map((minute) => NOW + minute * MINUTE_MS);

describe('what falls due', () => {
  const [early, second, third, fourth] = minutes(5, 70, 75, 80) as [number, number, number, number];
  const rows = [
    row('1', early, 'tolland'),
    row('2', second, 'tolland'),
    row('3', third, 'tolland'),
    row('4', fourth, 'tolland'),
  ];
  const load = workload(rows, NOW, NOW + 2 * HOUR_MS);

  it('stands in the half hours of the clock', () => {
    expect(load.halfHours.map(({ from, count }) => [new Date(from).toISOString().slice(11, 16), count])).toEqual([
      ['14:00', 1],
      ['14:30', 0],
      ['15:00', 3],
      ['15:30', 0],
      ['16:00', 0],
    ]);
  });
  it('clashes when three are one nurse’s', () => {
    expect(clashes(load.halfHours)).toEqual([
      expect.objectContaining({ from: at('2026-11-25T15:00Z'), count: 3, nurse: { name: 'tolland', count: 3 } }),
    ]);
  });
  it('clashes when four are the ward’s, each with a nurse of its own', () => {
    const spread = rows.map((one, index) => ({ ...one, nurse: row('', NOW, `nurse-${index}`).nurse }));
    expect(clashes(workload(spread, NOW, NOW + 2 * HOUR_MS).halfHours)).toEqual([]);
    const more = [...spread, row('5', third, 'another')];
    expect(clashes(workload(more, NOW, NOW + 2 * HOUR_MS).halfHours)).toMatchObject([{ count: 4, nurse: null }]);
  });
  it('counts beds that nobody has, but clashes with nobody', () => {
    const nobodys = rows.map((one) => ({ ...one, nurse: null }));
    expect(clashes(workload(nobodys, NOW, NOW + 2 * HOUR_MS).halfHours)).toEqual([]);
  });
  it('is counted whole, however it is cut', () => {
    const dues = fc.array(fc.tuple(fc.integer({ min: 0, max: 600 }), fc.constantFrom('x', 'y', null)), {
      maxLength: 30,
    });
    fc.assert(
      fc.property(dues, fc.integer({ min: 1, max: 599 }), (list, cut) => {
        const all = list.map(([minute, nurse], index) => row(String(index), NOW + minute * MINUTE_MS, nurse));
        const count = (from: number, to: number) =>
          workload(all, NOW + from * MINUTE_MS, NOW + to * MINUTE_MS).halfHours.reduce(
            (sum, half) => sum + half.count,
            0,
          );
        expect(count(0, cut) + count(cut, 600)).toBe(count(0, 600));
      }),
    );
  });
});
