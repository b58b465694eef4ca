import { describe, expect, it } from 'vitest';
import { type Collected, collectDialysate } from './dialysate-collection.ts';

const HOUR_MS = 3_600_000;
const START = Date.parse('2026-06-01T07:00:00Z');
const hour = (hours: number): number => START + hours * HOUR_MS;
const PERIOD = { from: START, to: hour(24), zone: 'Europe/London' };

type Sketch = {
  filledAt: number;
  drainedAt: number | null;
  filledMl?: number | null;
  drainedMl?: number | null;
  revisionId?: string;
};

/** A dwell of 2 L in and 2.2 L out, filled and drained at hours of the collection. */
const dwell = ({ filledAt, drainedAt, filledMl = 2000, drainedMl = 2200, revisionId = 'r1' }: Sketch): Collected => {
  const drain = { entryId: `d${drainedAt}`, startedAt: hour((drainedAt ?? 0) - 0.3), drainedMl };
  return {
    id: `f${filledAt}`,
    fills: [{ endedAt: hour(filledAt), revisionId }],
    drains: drainedAt === null ? [] : [drain],
    drainedAt: drainedAt === null ? null : hour(drainedAt),
    filledMl,
  };
};

const DAY: readonly Collected[] = [
  dwell({ filledAt: -8, drainedAt: 0 }),
  dwell({ filledAt: 0.3, drainedAt: 5 }),
  dwell({ filledAt: 5.3, drainedAt: 10 }),
  dwell({ filledAt: 10.3, drainedAt: 15 }),
  dwell({ filledAt: 15.3, drainedAt: 24 }),
  dwell({ filledAt: 24.3, drainedAt: null }),
];
const noFlush = () => 0;

describe('collectDialysate', () => {
  it('gathers what was drained after the discarded drain, up to the last one', () => {
    expect(collectDialysate(DAY, PERIOD, noFlush)).toEqual({
      value: { sampledMl: 8800, drainedMl: 8800, filledMl: 8000, drainMinusFillMl: 800, hours: 24, drains: 4 },
      issues: [],
    });
  });

  it('puts flush that ran into the samples into the volume of the solutes and not into ultrafiltration', () => {
    expect(collectDialysate(DAY, PERIOD, () => 100).value).toMatchObject({
      sampledMl: 9200,
      drainedMl: 8800,
      drainMinusFillMl: 800,
    });
  });

  it('gives no number when a drain was not measured, and says which', () => {
    const gap = DAY.with(2, dwell({ filledAt: 5.3, drainedAt: 10, drainedMl: null }));
    const result = collectDialysate(gap, PERIOD, noFlush);
    expect(result.value).toBeNull();
    expect(result.issues).toMatchObject([{ code: 'drain-not-measured', value: { entryId: 'd10', at: hour(9.7) } }]);
    expect(result.issues[0]!.message).toContain('2026-06-01T16:42Z');
  });

  it('gives no number when the flush of a drain is not known', () => {
    const result = collectDialysate(DAY, PERIOD, (drain) => (drain.entryId === 'd15' ? null : 100));
    expect(result.value).toBeNull();
    expect(result.issues).toMatchObject([{ code: 'missing', value: { entryId: 'd15' } }]);
  });

  it('gives no number when something filled within it was not drained', () => {
    const result = collectDialysate(DAY.with(4, dwell({ filledAt: 15.3, drainedAt: null })), PERIOD, noFlush);
    expect(result.issues).toMatchObject([{ code: 'not-drained', value: { entryId: 'f15.3' } }]);
  });

  it('gives no number over a change of prescription', () => {
    const result = collectDialysate(
      DAY.with(3, dwell({ filledAt: 10.3, drainedAt: 15, revisionId: 'r2' })),
      PERIOD,
      noFlush,
    );
    expect(result.issues).toMatchObject([{ code: 'prescription-changed', value: ['r1', 'r2'] }]);
  });

  it('refuses a start that is not the drain before', () => {
    const result = collectDialysate(DAY, { ...PERIOD, from: hour(-0.5), to: hour(23.9) }, noFlush);
    expect(result.issues.map((issue) => issue.code)).toContain('filled-before');
  });

  it('refuses half a day, times the wrong way round, and a day without a drain', () => {
    const half = collectDialysate(DAY, { ...PERIOD, to: hour(10) }, noFlush);
    expect(half.issues).toMatchObject([{ field: 'hours', value: 10, allowed: '20 to 28 h' }]);
    const backwards = collectDialysate(DAY, { ...PERIOD, from: hour(24), to: START }, noFlush);
    expect(backwards.issues[0]).toMatchObject({ field: 'hours', value: -24 });
    expect(collectDialysate([], PERIOD, noFlush).issues).toMatchObject([{ code: 'nothing-drained' }]);
  });

  it('uses elapsed hours over a clock change and says so', () => {
    const from = Date.parse('2026-03-28T07:00:00Z');
    const shift = from - START;
    const moved = DAY.map((each) => ({
      ...each,
      drainedAt: each.drainedAt === null ? null : each.drainedAt + shift,
      fills: each.fills.map((fill) => ({ ...fill, endedAt: fill.endedAt! + shift })),
    }));
    const result = collectDialysate(moved, { from, to: from + 24 * HOUR_MS, zone: 'Europe/London' }, noFlush);
    expect(result.value).toMatchObject({ hours: 24, drains: 4 });
    expect(result.issues).toMatchObject([{ code: 'clock-changed', value: 24 }]);
  });
});
