import { createRequire } from 'node:module';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { incompleteBeta } from '../../packages/domain/src/statistics/beta.ts';
import { exactShare } from '../../packages/domain/src/statistics/binomial-limits.ts';
import { incompleteGamma, logGamma } from '../../packages/domain/src/statistics/gamma.ts';
import { kendallTwoSidedP } from '../../packages/domain/src/statistics/kendall.ts';
import { exactPoissonLimits } from '../../packages/domain/src/statistics/poisson-limits.ts';
import { betaQuantile, chiSquareQuantile, studentQuantile } from '../../packages/domain/src/statistics/quantile.ts';

/** The general-purpose statistics package as an oracle; it comes without types. */
type Distribution = {
  cdf(x: number, ...parameters: number[]): number;
  inv(p: number, ...parameters: number[]): number;
};
const { jStat } = createRequire(import.meta.url)('jstat') as {
  jStat: {
    chisquare: Distribution;
    beta: Distribution;
    normal: Distribution;
    studentt: Distribution;
    gammaln(x: number): number;
  };
};

const relativeError = (got: number, wanted: number): number =>
  Math.abs(got - wanted) / Math.max(1e-12, Math.abs(wanted));

describe('our distributions against jstat', () => {
  it('agree on ln Γ', () => {
    for (const x of [0.01, 0.5, 1, 1.5, 2, 3.7, 10, 100, 1234.5]) {
      expect(Math.abs(logGamma(x) - jStat.gammaln(x))).toBeLessThan(1e-9 * Math.max(1, Math.abs(jStat.gammaln(x))));
    }
  });

  it('agree on the chi-square quantile to 1e-9', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.001, max: 0.999, noNaN: true }), fc.integer({ min: 1, max: 400 }), (p, df) => {
        expect(relativeError(chiSquareQuantile(p, df), jStat.chisquare.inv(p, df))).toBeLessThan(1e-9);
      }),
      { numRuns: 200 },
    );
  });

  it('agree on the beta quantile to 1e-6, where its iteration may stop (the sums below go to 1e-10)', () => {
    const shape = fc.integer({ min: 1, max: 300 });
    fc.assert(
      fc.property(fc.double({ min: 0.005, max: 0.995, noNaN: true }), shape, shape, (p, a, b) => {
        expect(relativeError(betaQuantile(p, a, b), jStat.beta.inv(p, a, b))).toBeLessThan(1e-6);
      }),
      { numRuns: 200 },
    );
  });

  it('agree on the quantile of Student’s t, whole degrees of freedom or not', () => {
    const upper = fc.double({ min: 0.55, max: 0.9995, noNaN: true });
    fc.assert(
      fc.property(upper, fc.double({ min: 1, max: 300, noNaN: true }), (p, df) => {
        expect(relativeError(studentQuantile(p, df), jStat.studentt.inv(p, df))).toBeLessThan(1e-6);
        expect(studentQuantile(1 - p, df)).toBeCloseTo(-studentQuantile(p, df), 9);
      }),
      { numRuns: 200 },
    );
    expect(studentQuantile(0.5, 7)).toBe(0);
    expect(studentQuantile(1.1, 7)).toBeNaN();
  });

  it('agree on the limits of counts and shares', () => {
    for (const count of [1, 2, 3, 7, 24, 68, 250]) {
      const limits = exactPoissonLimits(count).value!;
      expect(relativeError(limits.lower, jStat.chisquare.inv(0.025, 2 * count) / 2)).toBeLessThan(1e-9);
      expect(relativeError(limits.upper, jStat.chisquare.inv(0.975, 2 * count + 2) / 2)).toBeLessThan(1e-9);
    }
    for (const [part, whole] of [
      [1, 12],
      [17, 302],
      [20, 24],
      [150, 300],
    ] as const) {
      const limits = exactShare(part, whole).value!;
      expect(relativeError(limits.lower, jStat.beta.inv(0.025, part, whole - part + 1))).toBeLessThan(1e-6);
      expect(relativeError(limits.upper, jStat.beta.inv(0.975, part + 1, whole - part))).toBeLessThan(1e-6);
    }
  });
});

describe('the trend test against the normal distribution of jstat', () => {
  /** Two-sided p of S among n values without ties, with correction for continuity (Kendall 1975). */
  const normalP = (s: number, n: number): number => {
    const sd = Math.sqrt((n * (n - 1) * (2 * n + 5)) / 18);
    return 2 * (1 - jStat.normal.cdf((s - 1) / sd, 0, 1));
  };
  const upTo = (n: number): number[] => Array.from({ length: n }, (_, i) => i);

  it('is within 0.002 of it where the exact count ends, and equal beyond', () => {
    for (let s = 2; s <= 600; s += 2) {
      expect(Math.abs(kendallTwoSidedP(s, upTo(60)) - normalP(s, 60))).toBeLessThan(0.002);
      expect(kendallTwoSidedP(s, upTo(61))).toBeCloseTo(normalP(s, 61), 9);
    }
  });

  it('differs from it where it must not be used: six in a row of six', () => {
    expect(kendallTwoSidedP(15, upTo(6))).toBeCloseTo(2 / 720, 12);
    expect(Math.abs(normalP(15, 6) - 2 / 720)).toBeGreaterThan(0.003);
  });
});

describe('our quantiles against sums that need no distribution package', () => {
  /** P(X ≤ k) of a Poisson variable, term by term. */
  const poissonAtMost = (k: number, mean: number): number => {
    let term = Math.exp(-mean);
    let sum = term;
    for (let i = 1; i <= k; i += 1) {
      term *= mean / i;
      sum += term;
    }
    return sum;
  };

  it('the Poisson limits leave exactly 2.5 % in each tail (definition of Garwood), to 1e-10', () => {
    for (const count of [1, 2, 5, 10, 24, 100]) {
      const { lower, upper } = exactPoissonLimits(count).value!;
      expect(Math.abs(1 - poissonAtMost(count - 1, lower) - 0.025)).toBeLessThan(1e-10);
      expect(Math.abs(poissonAtMost(count, upper) - 0.025)).toBeLessThan(1e-10);
    }
  });

  /** P(X ≤ k) of a binomial variable, term by term. */
  const binomialAtMost = (k: number, n: number, p: number): number => {
    let term = (1 - p) ** n;
    let sum = term;
    for (let i = 1; i <= k; i += 1) {
      term *= ((n - i + 1) / i) * (p / (1 - p));
      sum += term;
    }
    return sum;
  };

  it('the binomial limits leave exactly 2.5 % in each tail (definition of Clopper and Pearson), to 1e-10', () => {
    for (const [part, whole] of [
      [1, 10],
      [5, 25],
      [20, 24],
      [17, 302],
    ] as const) {
      const { lower, upper } = exactShare(part, whole).value!;
      expect(Math.abs(1 - binomialAtMost(part - 1, whole, lower) - 0.025)).toBeLessThan(1e-10);
      expect(Math.abs(binomialAtMost(part, whole, upper) - 0.025)).toBeLessThan(1e-10);
    }
  });

  it('both tails of the incomplete functions add to one', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 200, noNaN: true }),
        fc.double({ min: 0, max: 400, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (a, x, share) => {
          const gamma = incompleteGamma(a, x);
          const beta = incompleteBeta(share, a, 3.5);
          expect(gamma.lower + gamma.upper).toBeCloseTo(1, 12);
          expect(beta.lower + beta.upper).toBeCloseTo(1, 12);
        },
      ),
    );
  });
});
