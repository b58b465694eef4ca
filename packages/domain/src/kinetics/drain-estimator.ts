import { type Computed, computed, unlessRefused } from '../units/computed.ts';
import { checkNumber, type Range } from '../units/ranges.ts';
import { DEVIATIONS, type ModelledDrain } from './drain-model.ts';

/**
 * What has been learned from one patient's drains: plain numbers, so it may be kept as JSON. All of it follows from the
 * drains in their order.
 */
export type DrainEstimator = {
  /** Drains learned from. */
  drains: number;
  /** How this patient deviates, in the order of DEVIATIONS. */
  deviations: readonly number[];
  /** Their covariance, row by row. */
  covariance: readonly (readonly number[])[];
  /** Scatter of one drain: what was taken to be before any, and what has been seen since (old drains count less). */
  noise: { priorVarianceMl2: number; weight: number; sumMl2: number };
};

/** A standard deviation of single drains around what they should be, mL, and how many patients it counts for. */
const PRIOR_NOISE_ML = 110;
const PRIOR_NOISE_PATIENTS = 5;
/** How many drains the prior noise counts for. */
const PRIOR_NOISE_DRAINS = 4;
/** Beyond so many standard deviations a drain counts less: a mis-weighed bag must not teach. */
const ROBUST_Z = 2.25;
const FORGETTING = 0.98;
/** Cutting off at 2.25 loses 3 % of the variance. */
const CUT_OFF_CORRECTION = 1.03;

const DRAINED_RANGE: Range = { least: 0, most: 6_000, unit: 'mL' };

/**
 * Before any drain.
 * @param ward what earlier patients of the ward taught: the median of their `noiseSdMl` and how many there were
 */
export const beginLearning = (ward: { medianNoiseSdMl: number; patients: number } | null = null): DrainEstimator => {
  const patients = ward?.patients ?? 0;
  const wardVariance = patients * (ward?.medianNoiseSdMl ?? 0) ** 2;
  return {
    drains: 0,
    deviations: DEVIATIONS.map(() => 0),
    covariance: DEVIATIONS.map((row, i) => DEVIATIONS.map((_, j) => (i === j ? row.priorSd ** 2 : 0))),
    noise: {
      priorVarianceMl2: (PRIOR_NOISE_PATIENTS * PRIOR_NOISE_ML ** 2 + wardVariance) / (PRIOR_NOISE_PATIENTS + patients),
      weight: 0,
      sumMl2: 0,
    },
  };
};

const noiseVarianceMl2 = ({ noise }: DrainEstimator): number =>
  (PRIOR_NOISE_DRAINS * noise.priorVarianceMl2 + noise.sumMl2) / (PRIOR_NOISE_DRAINS + noise.weight);

/** Scatter of a short dwell's drain around what it should be, mL: one standard deviation. */
export const noiseSdMl = (estimator: DrainEstimator): number => Math.sqrt(noiseVarianceMl2(estimator));

/** The next drain, before it is seen. */
export type Foreseen = {
  drainMl: number;
  /** One standard deviation, mL: of a drain, not of its mean. */
  sdMl: number;
  /** How many degrees of freedom that standard deviation has. */
  degreesOfFreedom: number;
};

/** What this patient's drain should be, from the model and everything learned. */
export function foresee(estimator: DrainEstimator, { drainMl, regressors, scatter }: ModelledDrain): Foreseen {
  const variance = quadratic(estimator.covariance, regressors) / scatter ** 2 + noiseVarianceMl2(estimator);
  return {
    drainMl: drainMl + dot(regressors, estimator.deviations),
    sdMl: scatter * Math.sqrt(variance),
    degreesOfFreedom: PRIOR_NOISE_DRAINS + estimator.noise.weight,
  };
}

/**
 * Learns from one drain: a step of a robust recursive regression on top of the model, with slowly wandering deviations.
 * Leave out what does not teach: incomplete drains, drains during peritonitis or a leak, volumes corrected away.
 * @param drainedMl without flush, mL
 */
export const learnDrain = (
  estimator: DrainEstimator,
  modelled: ModelledDrain,
  drainedMl: number,
): Computed<DrainEstimator> =>
  unlessRefused(checkNumber('drainedMl', drainedMl, DRAINED_RANGE), () =>
    computed(step(estimator, modelled, drainedMl)),
  );

function step(estimator: DrainEstimator, { drainMl, regressors, scatter }: ModelledDrain, drainedMl: number) {
  const { covariance, deviations, noise } = estimator;
  const x = regressors.map((regressor) => regressor / scatter);
  const px = covariance.map((row) => dot(row, x));
  const spread = dot(px, x);
  const noiseVariance = noiseVarianceMl2(estimator);
  const variance = spread + noiseVariance;
  const miss = (drainedMl - drainMl) / scatter - dot(x, deviations);

  const z = Math.abs(miss) / Math.sqrt(variance);
  const trust = Math.min(1, ROBUST_Z / z);
  const gain = px.map((value) => value / (spread + noiseVariance / trust ** 2));
  const seenVariance = Math.min(z ** 2, ROBUST_Z ** 2) * noiseVariance;
  return {
    drains: estimator.drains + 1,
    deviations: deviations.map((deviation, i) => deviation + gain[i]! * miss),
    covariance: covariance.map((row, i) =>
      row.map((value, j) => value - gain[i]! * px[j]! + (i === j ? DEVIATIONS[i]!.walkSd ** 2 : 0)),
    ),
    noise: {
      priorVarianceMl2: noise.priorVarianceMl2,
      weight: FORGETTING * noise.weight + 1,
      sumMl2: FORGETTING * noise.sumMl2 + CUT_OFF_CORRECTION * seenVariance,
    },
  };
}

const dot = (a: readonly number[], b: readonly number[]): number => a.reduce((sum, value, i) => sum + value * b[i]!, 0);

const quadratic = (matrix: readonly (readonly number[])[], x: readonly number[]): number =>
  dot(
    matrix.map((row) => dot(row, x)),
    x,
  );
