import type { Problem } from '../record/problem.ts';
import { type Computed, computed, unlessRefused } from '../units/computed.ts';
import { CREATININE_BANDS, categoryOf, GLUCOSE_BANDS, type TransportCategory } from './categories.ts';
import { checkMembraneTest } from './checks.ts';
import { correctedCreatinineUmolPerL } from './creatinine-correction.ts';
import type { BloodSample, DialysateSample, MembraneTest } from './done-test.ts';
import { timingIssues } from './timing.ts';

export type SampleResult = {
  /** Hours after the end of the fill. */
  hours: number;
  /** null where the sample's creatinine is less than its correction for glucose: early samples hold hardly any. */
  dpCreatinine: number | null;
  ddGlucose: number;
  /** Dialysate sodium of the zero sample less this one's, mmol/L; null = not measured. */
  sodiumFallMmolPerL: number | null;
};

export type MembraneResult = {
  samples: readonly SampleResult[];
  /** The sample of the fourth hour. */
  final: SampleResult & { dpCreatinine: number };
  /** By creatinine and by glucose; null where the ratio lies outside the table (the issue says so). */
  category: { creatinine: TransportCategory | null; glucose: TransportCategory | null };
};

const HOUR_MS = 3_600_000;

/**
 * Evaluates a 4 h membrane test: D/P creatinine, D/D0 glucose, fall of dialysate sodium, category.
 * Source: Twardowski et al. 1987; procedure after the Atlas of Diseases of the Kidney, figs. 4-8 and 4-12.
 * The category belongs to the table of the 2.27 % test; with 3.86 % D/P creatinine is close to it and D/D0 is not, so
 * the latter then has no category.
 * @returns the ratios, with departures from the procedure as issues; or the problems: samples missing or out of order,
 * values out of range, ratios that no membrane gives
 */
export const membraneTestResult = (test: MembraneTest): Computed<MembraneResult> =>
  unlessRefused(checkMembraneTest(test), () => {
    const corrected = ({ creatinineUmolPerL, glucoseMmolPerL }: DialysateSample | BloodSample): Computed<number> =>
      correctedCreatinineUmolPerL(creatinineUmolPerL, glucoseMmolPerL, test.creatinineMethod);
    const plasma = corrected(test.blood);
    const dialysate = test.samples.map(corrected);
    return unlessRefused([plasma, dialysate.at(-1)!].flatMap(refusals), () => {
      const samples = test.samples.map((sample, i) =>
        sampleResult(sample, test, { plasma: plasma.value!, dialysate: dialysate[i]!.value }),
      );
      return unlessRefused(samples.flatMap(impossible), () => withCategories(samples, test));
    });
  });

const sampleResult = (
  sample: DialysateSample,
  test: MembraneTest,
  creatinine: { plasma: number; dialysate: number | null },
): SampleResult => {
  const zero = test.samples[0]!;
  const sodiumKnown = zero.sodiumMmolPerL !== null && sample.sodiumMmolPerL !== null;
  return {
    hours: (sample.takenAt - test.fillEndedAt) / HOUR_MS,
    dpCreatinine: creatinine.dialysate === null ? null : creatinine.dialysate / creatinine.plasma,
    ddGlucose: sample.glucoseMmolPerL / zero.glucoseMmolPerL,
    sodiumFallMmolPerL: sodiumKnown ? zero.sodiumMmolPerL! - sample.sodiumMmolPerL! : null,
  };
};

const refusals = (result: Computed<number>): readonly Problem[] => (result.value === null ? result.issues : []);

/** A little over 1 is measurement error; more is a mix-up of tubes or a unit slip. */
const MOST_DP = 1.1;
const MOST_DD = 1.05;

const impossible = ({ hours, dpCreatinine, ddGlucose }: SampleResult): readonly Problem[] => {
  const at = `${hours.toFixed(1)} h`;
  return [
    ...(dpCreatinine === null || dpCreatinine <= MOST_DP
      ? []
      : [outOfReach('dpCreatinine', dpCreatinine, MOST_DP, at)]),
    ...(ddGlucose <= MOST_DD ? [] : [outOfReach('ddGlucose', ddGlucose, MOST_DD, at)]),
  ];
};

const outOfReach = (field: string, value: number, most: number, at: string): Problem => ({
  code: 'ratio-out-of-reach',
  field,
  value,
  allowed: `0 to ${most}`,
  message: `${field} at ${at} is ${value.toFixed(2)}: no membrane does that, look at tubes and units`,
});

/** Between the two strengths: the table of the 2.27 % test is not used for D/D0 from here on. */
const STRONG_FROM_G_PER_L = 30;

const withCategories = (samples: readonly SampleResult[], test: MembraneTest): Computed<MembraneResult> => {
  const last = samples.at(-1)!;
  const final = { ...last, dpCreatinine: last.dpCreatinine! };
  const creatinine = categoryOf('dpCreatinine', final.dpCreatinine, CREATININE_BANDS);
  const glucose =
    test.glucoseGPerL < STRONG_FROM_G_PER_L ? categoryOf('ddGlucose', final.ddGlucose, GLUCOSE_BANDS) : null;
  return computed<MembraneResult>(
    { samples, final, category: { creatinine: creatinine.value, glucose: glucose?.value ?? null } },
    [...creatinine.issues, ...(glucose?.issues ?? []), ...timingIssues(test)],
  );
};
