import type { WallRow } from '@slackwater/domain';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Placed } from '../board/moment.ts';
import { laterHeight, laterHours } from './later-hours.ts';

const MINUTE_MS = 60_000;
const at = (...minutes: readonly (number | null)[]) =>
  minutes.map((minute, index) => ({
    row: { bed: String(index) },
    moment: { at: minute === null ? null : minute * MINUTE_MS },
  })) as unknown as readonly Placed<WallRow>[];

describe('the later hours on the wall', () => {
  it('put a bed under the half hour in which it falls due, and what is later or unknown beyond', () => {
    const { columns, beyond } = laterHours(at(0, 29, 30, 299, 300, null), 0);
    expect(columns.map(({ placed }) => placed.length)).toEqual([2, 1, 0, 0, 0, 0, 0, 0, 0, 1]);
    expect(beyond.map(({ row }) => row.bed)).toEqual(['4', '5']);
  });

  it('grow by a line for the third bed of a half hour', () => {
    const height = (...minutes: readonly number[]) => laterHeight(laterHours(at(...minutes), 0));
    expect(height(1, 2)).toBe(height());
    expect(height(1, 2, 3)).toBeGreaterThan(height(1, 2));
  });

  it('show every bed once, wherever it is due', () => {
    fc.assert(
      fc.property(fc.array(fc.option(fc.integer({ min: -60, max: 900 }))), (minutes) => {
        const { columns, beyond } = laterHours(at(...minutes), 0);
        const shown = [...columns.flatMap(({ placed }) => placed), ...beyond].map(({ row }) => row.bed);
        return new Set(shown).size === minutes.length && shown.length === minutes.length;
      }),
    );
  });
});
