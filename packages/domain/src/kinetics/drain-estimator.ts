import { type Computed, computed, unlessRefused } from '../units/computed.ts';
import { checkNumber, type Range } from '../units/ranges.ts';
import { DEVIATIONS, type ModelledDrain } from './drain-model.ts';
import {
  type DrainNoise,
  type LengthNoise,
  lengthIndex,
  lengthRatio,
  noiseVarianceMl2,
  PRIOR_NOISE_DRAINS,
} from './drain-noise.ts';

/**
 * What has been learned from one patient's drains: plain numbers, so it may be kept as JSON. All of it follows from the
 * drains in their order. The constants of this file were set by hand on simulated patients (`npm run report:kinetics`), so
 * another estimator that does better there may take its place.
 */
export type DrainEstimator = {
  /** Drains learned from. */
  drains: number;
  /** How this patient deviates, in the order of DEVIATIONS. */
  deviations: readonly number[];
  /** Their covariance, row by row. */
  covariance: readonly (readonly number[])[];
  noise: DrainNoise;
  noiseByLength: readonly LengthNoise[];
};

/** Beyond so many standard deviations a drain counts less: a mis-weighed bag must not teach. */
const ROBUST_Z = 2.25;
/** What a drain of the past still counts after each further one. */
const FORGETTING = 0.98;
/** Cutting off at 2.25 loses 3 % of the variance. */
const CUT_OFF_CORRECTION = 1.03;

/** Of the variance of a drain, how much is what it leaves behind; the next drain brings that (chosen). */
const LEFT_BEHIND_SHARE = 0.25;
/** The last deviation belongs to the drain before, not to the patient. */
export const LEFT_BEHIND = DEVIATIONS.length - 1;

const DRAINED_RANGE: Range = { least: 0, most: 6_000, unit: 'mL' };

/** The next drain, before it is seen. */
export type Foreseen = {
  drainMl: number;
  /** One standard deviation, mL: of a drain, not of its mean. */
  sdMl: number;
  /** How many degrees of freedom that standard deviation has. */
  degreesOfFreedom: number;
};

/** What this patient's drain should be, from the model and everything learned. */
export function foresee(estimator: DrainEstimator, modelled: ModelledDrain): Foreseen {
  const { drainMl, regressors, scatter, dwellMinutes } = modelled;
  const noiseVariance = noiseVarianceMl2(estimator) * lengthRatio(estimator, lengthIndex(dwellMinutes));
  const variance = quadratic(estimator.covariance, regressors) / scatter ** 2 + noiseVariance;
  return {
    drainMl: drainMl + dot(regressors, estimator.deviations),
    sdMl: scatter * Math.sqrt(variance),
    degreesOfFreedom: PRIOR_NOISE_DRAINS + estimator.noise.weight,
  };
}

/**
 * Learns from one drain: a step of a robust recursive regression on top of the model, with slowly wandering deviations.
 * What does not teach is passed over (`passOver`) instead: incomplete drains, drains during peritonitis or a leak, volumes
 * corrected away.
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

function step(estimator: DrainEstimator, modelled: ModelledDrain, drainedMl: number): DrainEstimator {
  const { deviations, noise } = estimator;
  const { drainMl, regressors, scatter, dwellMinutes } = modelled;
  const x = regressors.map((regressor) => regressor / scatter);
  const px = estimator.covariance.map((row) => dot(row, x));
  const pooledVariance = noiseVarianceMl2(estimator);
  const length = lengthIndex(dwellMinutes);
  const ratio = lengthRatio(estimator, length);
  const noiseVariance = pooledVariance * ratio;
  const spread = dot(px, x);
  const miss = (drainedMl - drainMl) / scatter - dot(x, deviations);
  const z = Math.abs(miss) / Math.sqrt(spread + noiseVariance);
  const trust = Math.min(1, ROBUST_Z / z);
  const variance = spread + noiseVariance / trust ** 2;

  const learned = deviations.map((deviation, i) => deviation + (px[i]! / variance) * miss);
  const covariance = px.map((pi, i) =>
    px.map((pj, j) => estimator.covariance[i]![j]! - (pi * pj) / variance + (i === j ? DEVIATIONS[i]!.walkSd ** 2 : 0)),
  );
  // What this drain left behind is new, and speaks through this drain alone: what did not come is still inside.
  const freshMl2 = LEFT_BEHIND_SHARE * pooledVariance;
  const withMiss = -freshMl2 / scatter;
  learned[LEFT_BEHIND] = (withMiss / variance) * miss;
  for (const [i, pi] of px.entries()) {
    covariance[i]![LEFT_BEHIND] = covariance[LEFT_BEHIND]![i] = (-withMiss * pi) / variance;
  }
  covariance[LEFT_BEHIND]![LEFT_BEHIND] = freshMl2 - withMiss ** 2 / variance;

  const seen = CUT_OFF_CORRECTION * Math.min(z ** 2, ROBUST_Z ** 2);
  return {
    drains: estimator.drains + 1,
    deviations: learned,
    covariance,
    noise: {
      priorVarianceMl2: noise.priorVarianceMl2,
      weight: FORGETTING * noise.weight + 1,
      sumMl2: FORGETTING * noise.sumMl2 + seen * pooledVariance,
    },
    noiseByLength: estimator.noiseByLength.map((own, i) =>
      i === length
        ? { prior: own.prior, weight: FORGETTING * own.weight + 1, sum: FORGETTING * own.sum + seen * ratio }
        : own,
    ),
  };
}

/**
 * After a drain that teaches nothing (incomplete, during peritonitis or a leak, corrected away, outside the model): what it
 * left behind is not known, so the next drain is foreseen without it.
 */
export function passOver(estimator: DrainEstimator): DrainEstimator {
  const fresh = LEFT_BEHIND_SHARE * noiseVarianceMl2(estimator);
  const known = (i: number, j: number): boolean => i !== LEFT_BEHIND && j !== LEFT_BEHIND;
  return {
    ...estimator,
    deviations: estimator.deviations.map((deviation, i) => (i === LEFT_BEHIND ? 0 : deviation)),
    covariance: estimator.covariance.map((row, i) =>
      row.map((value, j) => (known(i, j) ? value : i === j ? fresh : 0)),
    ),
  };
}

const dot = (a: readonly number[], b: readonly number[]): number => a.reduce((sum, value, i) => sum + value * b[i]!, 0);

const quadratic = (matrix: readonly (readonly number[])[], x: readonly number[]): number =>
  dot(
    matrix.map((row) => dot(row, x)),
    x,
  );
