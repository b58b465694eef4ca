import type { Problem } from '../record/problem.ts';
import { checkNumbers, ofPart, type Range } from '../units/ranges.ts';
import type { Collection, Plasma } from './clearance.ts';

/** Typed ranges (common practice); zero is refused where the number divides or a sample of nothing was sent. */
const COLLECTION: Readonly<Record<keyof Collection, Range>> = {
  sampledMl: { least: 0, most: 60_000, unit: 'mL', moreThanLeast: true },
  hours: { least: 20, most: 28, unit: 'h' },
  ureaMmolPerL: { least: 0, most: 1_000, unit: 'mmol/L' },
  creatinineUmolPerL: { least: 0, most: 50_000, unit: 'µmol/L' },
};

const PLASMA: Readonly<Record<keyof Plasma, Range>> = {
  ureaMmolPerL: { least: 0, most: 150, unit: 'mmol/L', moreThanLeast: true },
  creatinineUmolPerL: { least: 0, most: 5_000, unit: 'µmol/L', moreThanLeast: true },
};

/** Problems of a collection, each field prefixed by `what` ("dialysate.sampledMl"). */
export const checkCollection = (what: 'dialysate' | 'urine', collection: Collection): readonly Problem[] =>
  ofPart(what, checkNumbers(collection, COLLECTION));

export const checkPlasma = (plasma: Plasma): readonly Problem[] => ofPart('plasma', checkNumbers(plasma, PLASMA));

/**
 * Samples that are possible and odd: said beside the number, never a reason to refuse it (common practice).
 * Small solutes do not diffuse uphill, so dialysate above plasma is a mix-up of tubes or a unit slip until explained;
 * kidneys clear more creatinine than urea, so the opposite points to a faulty urine sample.
 */
export const oddSamples = (
  dialysate: Collection,
  plasma: Plasma,
  renal: { ureaLPerWeek: number; creatinineLPerWeek: number } | null,
): readonly Problem[] => {
  const above = (name: string, value: number, most: number, unit: string): readonly Problem[] =>
    value <= most
      ? []
      : [
          {
            code: 'dialysate-above-plasma',
            field: `dialysate.${name}`,
            value,
            allowed: `at most the plasma's ${most} ${unit}`,
            message: `Dialysate ${name} is above plasma (${value} against ${most} ${unit}): look at the samples again`,
          },
        ];
  const renalOdd: readonly Problem[] =
    renal === null || renal.ureaLPerWeek <= renal.creatinineLPerWeek
      ? []
      : [
          {
            code: 'renal-urea-above-creatinine',
            field: 'urine',
            value: renal.ureaLPerWeek,
            allowed: `at most the creatinine clearance of ${renal.creatinineLPerWeek.toFixed(1)} L/week`,
            message: 'Renal urea clearance is above renal creatinine clearance: look at the urine sample again',
          },
        ];
  return [
    ...above('ureaMmolPerL', dialysate.ureaMmolPerL, plasma.ureaMmolPerL, 'mmol/L'),
    ...above('creatinineUmolPerL', dialysate.creatinineUmolPerL, plasma.creatinineUmolPerL, 'µmol/L'),
    ...renalOdd,
  ];
};
