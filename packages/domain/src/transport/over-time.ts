import { type Trend, trendOf } from '../statistics/trend.ts';
import type { EpochMs } from '../time/instant.ts';
import type { MembraneResult } from './membrane-test.ts';

export type DatedResult = { at: EpochMs; glucoseGPerL: number; result: MembraneResult };

export type OverTime = {
  dpCreatinine: readonly { at: EpochMs; value: number }[];
  ddGlucose: readonly { at: EpochMs; value: number }[];
  /** null: too few tests for a statement. */
  dpTrend: Trend | null;
  ddTrend: Trend | null;
};

/** Tests within this of each other, g/L, count as the same strength. */
const SAME_STRENGTH_G_PER_L = 3;

/**
 * The results of one strength over time, with what may be said of a trend. Tests with another strength are left out:
 * D/D0 does not compare between them.
 * @param tests any order
 */
export const overTime = (tests: readonly DatedResult[], glucoseGPerL: number): OverTime => {
  const same = tests
    .filter((test) => Math.abs(test.glucoseGPerL - glucoseGPerL) < SAME_STRENGTH_G_PER_L)
    .sort((a, b) => a.at - b.at);
  const dpCreatinine = same.map(({ at, result }) => ({ at, value: result.final.dpCreatinine }));
  const ddGlucose = same.map(({ at, result }) => ({ at, value: result.final.ddGlucose }));
  return { dpCreatinine, ddGlucose, dpTrend: trendOf(dpCreatinine), ddTrend: trendOf(ddGlucose) };
};
