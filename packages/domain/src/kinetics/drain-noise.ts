/** Scatter of one drain: what was taken to be before any, and what has been seen since (old drains count less). */
export type DrainNoise = { priorVarianceMl2: number; weight: number; sumMl2: number };
/** By how much more (> 1) or less the variance of drains of a length is than `scatter` says, kept the same way. */
export type LengthNoise = { prior: number; weight: number; sum: number };
type Noise = { noise: DrainNoise; noiseByLength: readonly LengthNoise[] };

/** How many drains the prior noise counts for. */
export const PRIOR_NOISE_DRAINS = 4;
/** Lengths that may scatter differently: up to 3 h, 6 h, 10 h, and longer. */
const LENGTH_ENDS = [180, 360, 600] as const;
export const LENGTHS = LENGTH_ENDS.length + 1;

/** Variance of a short dwell's drain around what it should be, mL². */
export const noiseVarianceMl2 = ({ noise }: Pick<Noise, 'noise'>): number =>
  (PRIOR_NOISE_DRAINS * noise.priorVarianceMl2 + noise.sumMl2) / (PRIOR_NOISE_DRAINS + noise.weight);

/** Which of the lengths a dwell belongs to: 0 is the shortest. */
export const lengthIndex = (dwellMinutes: number): number => {
  const index = LENGTH_ENDS.findIndex((end) => dwellMinutes <= end);
  return index === -1 ? LENGTH_ENDS.length : index;
};

/** By how much more than `scatter` says the variance of drains of this length has been. */
export const lengthRatio = ({ noiseByLength }: Pick<Noise, 'noiseByLength'>, length: number): number => {
  const { prior, weight, sum } = noiseByLength[length]!;
  return (PRIOR_NOISE_DRAINS * prior + sum) / (PRIOR_NOISE_DRAINS + weight);
};

/** Scatter of a short dwell's drain around what it should be, mL: one standard deviation. */
export const noiseSdMl = (of: Pick<Noise, 'noise'>): number => Math.sqrt(noiseVarianceMl2(of));
