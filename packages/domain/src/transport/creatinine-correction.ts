import { type Computed, computed, unlessRefused } from '../units/computed.ts';
import { convert } from '../units/convert.ts';
import { checkNumbers, type Range } from '../units/ranges.ts';
import { SUBSTANCES } from '../units/substances.ts';

/**
 * How a laboratory's creatinine reacts to glucose: mg/dL of apparent creatinine per mg/dL of glucose.
 * A setting of the ward: zero for enzymatic assays.
 */
export type CreatinineMethod = { mgPerDlPerMgPerDlGlucose: number };

/** One laboratory's factor for the alkaline picrate method (Atlas of Diseases of the Kidney, fig. 4-8). */
export const ALKALINE_PICRATE_EXAMPLE: CreatinineMethod = { mgPerDlPerMgPerDlGlucose: 0.000531415 };

/** The same factor in µmol/L per mmol/L, derived from the molar masses: there is no second constant. */
export const umolPerLPerMmolPerL = ({ mgPerDlPerMgPerDlGlucose }: CreatinineMethod): number =>
  convert(
    mgPerDlPerMgPerDlGlucose * convert(1, 'mmol/L', 'mg/dL', SUBSTANCES.glucose).value!,
    'mg/dL',
    'umol/L',
    SUBSTANCES.creatinine,
  ).value!;

const CREATININE: Range = { least: 0, most: 50_000, unit: 'µmol/L' };
const GLUCOSE: Range = { least: 0, most: 300, unit: 'mmol/L' };
const FACTOR: Range = { least: 0, most: 0.01, unit: 'mg/dL per mg/dL' };

/**
 * Creatinine corrected for the glucose in the sample: measured − factor · glucose.
 * @param measuredUmolPerL as the laboratory gave it, µmol/L
 * @param glucoseMmolPerL of the same sample, mmol/L
 * @returns µmol/L, or the problem: out of range, or a correction that is larger than the measured value (the assay
 * does not need it, or the samples were mixed up)
 */
export const correctedCreatinineUmolPerL = (
  measuredUmolPerL: number,
  glucoseMmolPerL: number,
  method: CreatinineMethod,
): Computed<number> =>
  unlessRefused(
    checkNumbers(
      { creatinine: measuredUmolPerL, glucose: glucoseMmolPerL, factor: method.mgPerDlPerMgPerDlGlucose },
      { creatinine: CREATININE, glucose: GLUCOSE, factor: FACTOR },
    ),
    () => {
      const corrected = measuredUmolPerL - umolPerLPerMmolPerL(method) * glucoseMmolPerL;
      return unlessRefused(checkNumbers({ correctedCreatinine: corrected }, { correctedCreatinine: CREATININE }), () =>
        computed(corrected),
      );
    },
  );
