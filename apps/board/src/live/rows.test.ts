import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { applied as appliedTo, type Delta, fromSnapshot, type Rows } from './rows.ts';

type Row = { id: string; version: number };

const idOf = ({ id }: Row) => id;
const row = (id: string, version: number): Row => ({ id, version });
const rows = (position: number, ...ids: string[]) =>
  fromSnapshot({ epoch: 'one', position, rows: ids.map((id) => row(id, position)) }, idOf);
const delta = (from: number, to: number, changed: readonly Row[] = [], gone: readonly string[] = []): Delta<Row> => ({
  epoch: 'one',
  from,
  to,
  rows: changed,
  gone,
});
const applied = (before: Rows<Row>, change: Delta<Row>) => appliedTo(before, change, idOf);

describe('rows of a ward', () => {
  it('take a change that begins where they stand, and keep what did not change', () => {
    const before = rows(7, 'a', 'b', 'c');
    const next = applied(before, delta(7, 9, [row('b', 9)], ['c'])) as Rows<Row>;
    expect(next.position).toBe(9);
    expect(next.byId.get('a')).toBe(before.byId.get('a'));
    expect(next.byId.get('b')?.version).toBe(9);
    expect([...next.byId.keys()]).toEqual(['a', 'b']);
  });

  it('ask for what lies between when a change begins later', () => {
    expect(applied(rows(7, 'a'), delta(8, 9))).toBe('behind');
  });

  it('are unmoved by a change they already have', () => {
    const before = rows(7, 'a');
    expect(applied(before, delta(5, 7, [row('a', 6)]))).toBe(before);
  });

  it('are asked for anew when the database is another', () => {
    expect(applied(rows(7, 'a'), { ...delta(7, 8), epoch: 'two' })).toBe('otherEpoch');
  });

  it('never go back, whatever arrives in whatever order', () => {
    const anyDelta = fc.record({ from: fc.nat(20), size: fc.integer({ min: 1, max: 5 }) });
    fc.assert(
      fc.property(fc.array(anyDelta, { maxLength: 30 }), (deltas) => {
        let current = rows(0, 'a');
        for (const { from, size } of deltas) {
          const next = applied(current, delta(from, from + size, [row('a', from + size)]));
          if (typeof next === 'string') continue;
          if (next.position < current.position) return false;
          if ((next.byId.get('a')?.version ?? 0) < (current.byId.get('a')?.version ?? 0)) return false;
          current = next;
        }
        return true;
      }),
    );
  });
});
