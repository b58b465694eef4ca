import { studentQuantile } from '../statistics/quantile.ts';
import { type Computed, computed } from '../units/computed.ts';
import { type DrainEstimator, foresee } from './drain-estimator.ts';
import { type DrainKind, type DrainPrior, modelledDrain } from './drain-model.ts';

export type ExpectedDrain = {
  expectedMl: number;
  /** Four of five such drains lie within these. */
  lowMl: number;
  highMl: number;
  /** Earlier drains of this patient that it was learned from; 0 = by the population alone. */
  from: number;
};

/** Share of drains below the upper end of the 80 % band. */
const UPPER_SHARE = 0.9;

/**
 * What the drain of a dwell should be, with its 80 % band: for display and for patterns. One ordinary drain in five lies
 * outside, so it is no ground for an alert. A lasting rise of what stays behind shows as one low drain and then normal
 * ones: the running sum of what is still inside has to catch it.
 * @returns outside the model a problem and no number
 */
export const expectedDrain = (
  estimator: DrainEstimator,
  kind: DrainKind,
  prior: DrainPrior,
): Computed<ExpectedDrain> => {
  const modelled = modelledDrain(kind, prior);
  if (modelled.value === null) return modelled;
  const { drainMl, sdMl, degreesOfFreedom } = foresee(estimator, modelled.value);
  const half = studentQuantile(UPPER_SHARE, degreesOfFreedom) * sdMl;
  // A drain is never less than nothing, whatever the band says.
  return computed({
    expectedMl: Math.max(0, drainMl),
    lowMl: Math.max(0, drainMl - half),
    highMl: Math.max(0, drainMl + half),
    from: estimator.drains,
  });
};
