/** What a dwell is expected to bring back in one drain, and its spread, mL. */
export type ExpectedOut = { outMl: number; sdMl: number };

export type Odd = {
  /** `spread`: over three standard deviations away. `digit`: one digit more or less would fit well. */
  because: 'spread' | 'digit';
  outMl: number;
};

const SPREADS = 3;
/** A tenfold slip is likely when the value with one digit more or less comes this near to what was expected. */
const NEAR = 0.15;

const nearly = (valueMl: number, expectedMl: number): boolean => Math.abs(valueMl - expectedMl) <= NEAR * expectedMl;

/**
 * Whether a measured drain (mL) is far enough from what is expected to be asked about before it is kept.
 * Possible values are never refused here; that is the range's job. Three standard deviations: interface rule.
 */
export const oddDrain = (drainedMl: number, expected: ExpectedOut | null): Odd | null => {
  if (!expected || expected.outMl <= 0) return null;
  if (nearly(drainedMl * 10, expected.outMl) || nearly(drainedMl / 10, expected.outMl))
    return { because: 'digit', outMl: expected.outMl };
  return Math.abs(drainedMl - expected.outMl) > SPREADS * expected.sdMl
    ? { because: 'spread', outMl: expected.outMl }
    : null;
};
