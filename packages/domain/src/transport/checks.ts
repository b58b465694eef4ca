import type { Problem } from '../record/problem.ts';
import { checkNumber, checkNumbers, ofPart, type Range } from '../units/ranges.ts';
import type { BloodSample, DialysateSample, MembraneTest } from './done-test.ts';

const MINUTE_MS = 60_000;

/** Typed ranges (common practice). A plasma or zero-sample value divides, so it may not be zero. */
const PLASMA: Record<'creatinineUmolPerL' | 'glucoseMmolPerL', Range> = {
  creatinineUmolPerL: { least: 0, most: 5_000, unit: 'µmol/L', moreThanLeast: true },
  glucoseMmolPerL: { least: 0.5, most: 60, unit: 'mmol/L' },
};
const DIALYSATE: Record<'creatinineUmolPerL' | 'glucoseMmolPerL', Range> = {
  creatinineUmolPerL: { least: 0, most: 5_000, unit: 'µmol/L' },
  glucoseMmolPerL: { least: 0, most: 300, unit: 'mmol/L', moreThanLeast: true },
};
const SODIUM: Range = { least: 80, most: 170, unit: 'mmol/L' };
const STRENGTH: Range = { least: 13, most: 45, unit: 'g/L' };
/** The final sample belongs to the fourth hour; further off it is another test. */
const FINAL_MINUTES: Range = { least: 210, most: 270, unit: 'min after the end of the fill' };
/** The zero sample is taken when the fill has ended and been mixed. */
const ZERO_MINUTES: Range = { least: 0, most: 15, unit: 'min after the end of the fill' };

/** All that makes a membrane test impossible to evaluate; [] = may be evaluated. */
export const checkMembraneTest = (test: MembraneTest): readonly Problem[] => {
  const { samples, blood, fillEndedAt } = test;
  const minutes = (sample: DialysateSample | undefined): number | null =>
    sample ? (sample.takenAt - fillEndedAt) / MINUTE_MS : null;
  return [
    ...checkNumber('glucoseGPerL', test.glucoseGPerL, STRENGTH),
    ...checkNumber('samples', samples.length, { least: 2, most: 10, unit: 'samples', whole: true }),
    ...checkNumber('zeroSample', minutes(samples[0]), ZERO_MINUTES),
    ...checkNumber('finalSample', minutes(samples.at(-1)), FINAL_MINUTES),
    ...inOrder('fillEndedAt', [test.fillStartedAt, test.fillEndedAt]),
    ...inOrder(
      'samples',
      samples.map((sample) => sample.takenAt),
    ),
    ...inOrder('drainEndedAt', [test.fillEndedAt, test.drainStartedAt, test.drainEndedAt]),
    ...sampleProblems('blood', blood, PLASMA),
    ...samples.flatMap((sample, i) => sampleProblems(`samples[${i}]`, sample, DIALYSATE)),
  ];
};

const sampleProblems = (
  what: string,
  sample: BloodSample | DialysateSample,
  ranges: Record<'creatinineUmolPerL' | 'glucoseMmolPerL', Range>,
): readonly Problem[] =>
  ofPart(what, [
    ...checkNumbers(sample, ranges),
    ...(sample.sodiumMmolPerL === null ? [] : checkNumber('sodiumMmolPerL', sample.sodiumMmolPerL, SODIUM)),
  ]);

const inOrder = (field: string, instants: readonly number[]): readonly Problem[] =>
  instants.every((at, i) => i === 0 || at > instants[i - 1]!)
    ? []
    : [
        {
          code: 'times-out-of-order',
          field,
          value: instants,
          allowed: 'each later than the one before',
          message: `The times of ${field} are out of order`,
        },
      ];
