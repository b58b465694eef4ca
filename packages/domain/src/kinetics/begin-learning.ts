import { median } from '../statistics/median.ts';
import { type DrainEstimator, LEFT_BEHIND } from './drain-estimator.ts';
import { DEVIATIONS } from './drain-model.ts';
import { LENGTHS, lengthRatio, noiseSdMl } from './drain-noise.ts';

/** A standard deviation of single drains around what they should be, mL (chosen). */
const NOISE_ML = 110;
/** For how many patients what is taken beforehand counts against what the ward has seen (chosen). */
const BEFOREHAND = 5;

/**
 * Before any drain of this patient. Where the model is wrong for everybody, and how much patients differ and drains
 * scatter, the ward's earlier patients have shown; without any, what `DEVIATIONS` says.
 * @param earlier what was learned from the ward's earlier patients
 */
export const beginLearning = (earlier: readonly DrainEstimator[] = []): DrainEstimator => {
  const learned = DEVIATIONS.map((_, i) => deviationAmong(earlier, i));
  const wardNoiseMl = median(earlier.map(noiseSdMl)) ?? 0;
  return {
    drains: 0,
    deviations: learned.map(({ mean }) => mean),
    covariance: learned.map(({ variance }, i) => learned.map((_, j) => (i === j ? variance : 0))),
    noise: {
      priorVarianceMl2: drawn(NOISE_ML ** 2, earlier.length * wardNoiseMl ** 2, earlier.length),
      weight: 0,
      sumMl2: 0,
    },
    noiseByLength: Array.from({ length: LENGTHS }, (_, length) => {
      const seen = earlier.filter(({ noiseByLength }) => noiseByLength[length]!.weight > 0);
      const sum = sumOf(seen, (estimator) => lengthRatio(estimator, length));
      return { prior: drawn(1, sum, seen.length), weight: 0, sum: 0 };
    }),
  };
};

/** Mean of a sum over `count` patients, drawn towards what is taken beforehand. */
const drawn = (beforehand: number, sum: number, count: number): number =>
  (BEFOREHAND * beforehand + sum) / (BEFOREHAND + count);

const sumOf = <T>(of: readonly T[], value: (one: T) => number): number => of.reduce((sum, one) => sum + value(one), 0);

/** How patients deviate: what is not yet known of each counts as spread as well, or the spread would come out too small. */
function deviationAmong(earlier: readonly DrainEstimator[], i: number): { mean: number; variance: number } {
  const beforehand = DEVIATIONS[i]!.priorSd ** 2;
  if (i === LEFT_BEHIND) return { mean: 0, variance: beforehand };
  const mean = drawn(
    0,
    sumOf(earlier, ({ deviations }) => deviations[i]!),
    earlier.length,
  );
  const spread = sumOf(earlier, ({ deviations, covariance }) => (deviations[i]! - mean) ** 2 + covariance[i]![i]!);
  return { mean, variance: drawn(beforehand, spread, earlier.length) };
}
