import { exactShare } from '../../../packages/domain/src/statistics/binomial-limits.ts';
import { kendallTwoSidedP } from '../../../packages/domain/src/statistics/kendall.ts';
import { quartiles } from '../../../packages/domain/src/statistics/median.ts';
import { exactPoissonLimits, exactRate } from '../../../packages/domain/src/statistics/poisson-limits.ts';
import { chiSquareQuantile } from '../../../packages/domain/src/statistics/quantile.ts';
import { trendOf } from '../../../packages/domain/src/statistics/trend.ts';
import type { Computations } from '../rows.ts';

export const STATISTICS: Computations = {
  chiSquare: ({ p, degreesOfFreedom }) => chiSquareQuantile(p, degreesOfFreedom),
  poisson: ({ count }) => exactPoissonLimits(count),
  rate: ({ count, personTime }) => exactRate(count, personTime),
  share: ({ part, whole }) => exactShare(part, whole),
  quartiles: ({ values }) => quartiles(values),
  trend: ({ points }) => trendOf(points),
  kendall: ({ s, n }) =>
    kendallTwoSidedP(
      s,
      Array.from({ length: n }, (_, i) => i),
    ),
};
