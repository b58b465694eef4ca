import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { kendallTwoSidedP } from './kendall.ts';
import { median, quartiles, sampleQuantile } from './median.ts';
import { trendOf } from './trend.ts';

const DAY_MS = 86_400_000;
const daily = (values: readonly number[]) => values.map((value, i) => ({ at: i * DAY_MS, value }));

describe('trendOf', () => {
  it('says nothing with fewer than five points, or when all were taken at once', () => {
    expect(trendOf(daily([1, 2, 3, 4]))).toBeNull();
    expect(trendOf([1, 2, 3, 4, 5].map((value) => ({ at: 0, value })))).toBeNull();
  });

  it('finds the slope of a straight line whatever the spacing and the order of arrival', () => {
    const points = [9, 0, 4, 1, 30, 16].map((day) => ({ at: day * DAY_MS, value: 70 - 0.25 * day }));
    expect(trendOf(points)).toMatchObject({ direction: 'falling', points: 6 });
    expect(trendOf(points)!.slopePerDay).toBeCloseTo(-0.25, 12);
  });

  it('calls a series without order no trend', () => {
    expect(trendOf(daily([5, 1, 4, 2, 3, 5, 1, 4]))!.direction).toBe('noTrend');
    expect(trendOf(daily([3, 3, 3, 3, 3, 3]))).toMatchObject({ slopePerDay: 0, p: 1, direction: 'noTrend' });
  });

  it('turns round when the series does', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -50, max: 50 }), { minLength: 5, maxLength: 20 }), (values) => {
        const forward = trendOf(daily(values))!;
        const backward = trendOf(daily([...values].reverse()))!;
        expect(backward.slopePerDay).toBeCloseTo(-forward.slopePerDay, 9);
        expect(backward.p).toBeCloseTo(forward.p, 9);
      }),
    );
  });
});

describe('kendallTwoSidedP', () => {
  /** Every order of n values, tried one by one: the definition itself. */
  const permutations = (values: readonly number[]): number[][] =>
    values.length < 2
      ? [[...values]]
      : values.flatMap((value, i) => permutations(values.toSpliced(i, 1)).map((rest) => [value, ...rest]));
  const scoreOf = (values: readonly number[]): number =>
    values.reduce((s, early, i) => s + values.slice(i + 1).reduce((sum, late) => sum + Math.sign(late - early), 0), 0);

  it('equals the count over all 720 orders of six values', () => {
    const values = [1, 2, 3, 4, 5, 6];
    const scores = permutations(values).map(scoreOf);
    for (const s of [1, 3, 5, 9, 15]) {
      const wanted = scores.filter((score) => Math.abs(score) >= s).length / scores.length;
      expect(kendallTwoSidedP(s, values)).toBeCloseTo(wanted, 12);
    }
  });
});

describe('sampleQuantile', () => {
  it('is null for nothing, never zero', () => {
    expect(median([])).toBeNull();
    expect(quartiles([])).toBeNull();
  });

  it('lies within the sample, does not change it, and does not depend on its order', () => {
    fc.assert(
      fc.property(fc.array(fc.integer(), { minLength: 1 }), fc.double({ min: 0, max: 1, noNaN: true }), (values, p) => {
        const before = [...values];
        const quantile = sampleQuantile(values, p)!;
        expect(values).toEqual(before);
        expect(quantile).toBeGreaterThanOrEqual(Math.min(...values));
        expect(quantile).toBeLessThanOrEqual(Math.max(...values));
        expect(sampleQuantile([...values].reverse(), p)).toBe(quantile);
      }),
    );
  });
});
