import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { exactShare } from './binomial-limits.ts';
import { exactPoissonLimits, exactRate } from './poisson-limits.ts';

const confidence = fc.double({ min: 0.5, max: 0.999, noNaN: true });

describe('exact limits', () => {
  it('contain the estimate', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 2_000 }), confidence, (count, level) => {
        const { lower, estimate, upper } = exactPoissonLimits(count, level).value!;
        expect(lower).toBeLessThanOrEqual(estimate);
        expect(upper).toBeGreaterThan(estimate);
      }),
    );
    const share = fc.integer({ min: 1, max: 500 }).chain((whole) => fc.tuple(fc.nat(whole), fc.constant(whole)));
    fc.assert(
      fc.property(share, confidence, ([part, whole], level) => {
        const { lower, estimate, upper } = exactShare(part, whole, level).value!;
        expect(lower).toBeLessThanOrEqual(estimate);
        expect(upper).toBeGreaterThanOrEqual(estimate);
        expect(lower).toBeGreaterThanOrEqual(0);
        expect(upper).toBeLessThanOrEqual(1);
      }),
    );
  });

  it('widen with confidence', () => {
    const narrow = exactPoissonLimits(12, 0.9).value!;
    const wide = exactPoissonLimits(12, 0.99).value!;
    expect(wide.lower).toBeLessThan(narrow.lower);
    expect(wide.upper).toBeGreaterThan(narrow.upper);
  });

  it('mirror each other: the limits of a share are those of its complement, turned round', () => {
    const one = exactShare(7, 30).value!;
    const other = exactShare(23, 30).value!;
    expect(one.lower).toBeCloseTo(1 - other.upper, 12);
    expect(one.upper).toBeCloseTo(1 - other.lower, 12);
  });

  it('of a rate scale with its unit of person-time', () => {
    const perYear = exactRate(9, 20).value!;
    const perMonth = exactRate(9, 240).value!;
    expect(perYear.lower).toBeCloseTo(12 * perMonth.lower, 10);
    expect(perYear.upper).toBeCloseTo(12 * perMonth.upper, 10);
  });

  it('name the field, the value and the allowed range when they refuse', () => {
    expect(exactPoissonLimits(-1).issues[0]).toMatchObject({
      code: 'out-of-range',
      field: 'count',
      value: -1,
      allowed: 'whole, 0 to 1000000 events',
    });
    expect(exactPoissonLimits(3, 1).issues[0]).toMatchObject({ field: 'confidence', value: 1 });
    expect(exactRate(Number.NaN, 20).issues[0]).toMatchObject({ code: 'not-a-number', field: 'count' });
    expect(exactShare(3, 0).issues[0]).toMatchObject({ field: 'whole', value: 0 });
  });
});
