import { MINUTE_MS } from '@slackwater/domain/time/instant';
import { describe, expect, it } from 'vitest';
import { lanesOf, slotsOf } from './slots.ts';

const noon = Date.UTC(2026, 10, 25, 12);
const due = (minutes: number, planned = false) => ({ at: noon + minutes * MINUTE_MS, bed: '1', planned });
const lane = (accountId: string | null, ...toCome: ReturnType<typeof due>[]) => ({
  nurse: accountId === null ? null : { accountId, name: accountId },
  toCome,
});

describe('the nurses’ lines', () => {
  it('count by half hours of the clock, running and planned apart', () => {
    expect(slotsOf([due(0), due(29), due(30), due(45, true)])).toEqual([
      { from: noon, running: 2, planned: 0 },
      { from: noon + 30 * MINUTE_MS, running: 1, planned: 1 },
    ]);
  });

  it('stand by name, what nobody has last, and never more than fit', () => {
    const names = new Map([
      ['b', 'Adair'],
      ['a', 'Quill'],
    ]);
    const two = [lane('a', due(0)), lane(null, due(0)), lane('b')];
    expect(lanesOf(two, names).map(({ name }) => name)).toEqual(['Adair', 'Quill', 'nobody']);
    const nine = lanesOf(
      Array.from('abcdefghi', (id) => lane(id, due(0))),
      new Map(),
    );
    expect(nine).toHaveLength(6);
    expect(nine.at(-1)).toEqual({ name: '4 others', slots: [{ from: noon, running: 4, planned: 0 }] });
  });
});
