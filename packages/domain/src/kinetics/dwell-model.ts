import { type Computed, computed, refused, unlessRefused } from '../units/computed.ts';
import { AT } from './equations.ts';
import type { Bag, Residual } from './fluid.ts';
import type { Membrane } from './membrane.ts';
import { GLUCOSE_G_PER_MMOL, MEAN_PLASMA, type PerSolute } from './parameters.ts';
import { checkDwell, checkPatient, checkResidual, emptyAt } from './ranges.ts';
import { type Course, concentrationsOf, runDwell } from './run-dwell.ts';
import { surroundingsOf } from './surroundings.ts';

export type DwellInput = {
  bag: Bag;
  fillMl: number;
  dwellMinutes: number;
  residual: Residual;
  /** The patient's own, where known; else the population's for 1.73 m². */
  membrane?: Membrane;
  /** The patient's own, where known; else a mean patient's. */
  plasmaMmolPerL?: PerSolute;
};

export type DwellEnd = {
  /** Volume at the end less volume at the start, mL: positive = fluid came off. */
  ultrafiltrationMl: number;
  /** What drains when the residual stays behind, mL. */
  drainMl: number;
  /** The most that is inside at any time of the dwell, residual included, mL (looked at every few minutes). */
  mostInsideMl: number;
  /** Of the mixture of fill and residual. */
  startMmolPerL: PerSolute;
  endMmolPerL: PerSolute;
  endIcodextrinGPerL: number;
  /** End over start of the mixture; null for a fluid without glucose. */
  dOverD0Glucose: number | null;
  dOverP: PerSolute;
  /** Start less end of the mixture, mmol/L. */
  sodiumFallMmolPerL: number;
  /** Out of the cavity into the patient: positive = absorbed. */
  glucoseAbsorbedG: number;
  /** Share of what was in the mixture, 0 to 1; null for a fluid without glucose. */
  glucoseAbsorbedShare: number | null;
  /** Share of the icodextrin in the mixture, 0 to 1; null for a fluid without it. */
  icodextrinAbsorbedShare: number | null;
  lymphMl: number;
};

/**
 * One dwell of the three-pore model. An estimate with a band (see `ultrafiltrationBandMl`), never an instruction.
 * Fill 500 to 3,500 mL, dwell 1 to 720 min (icodextrin to 960 min); outside that, or where the cavity would run down to
 * the residual, the answer is a problem and no number.
 * Source: Rippe, Stelin, Haraldsson, Kidney Int 1991, equation forms from memory; parameters as marked.
 */
export const simulateDwell = (input: DwellInput): Computed<DwellEnd> =>
  unlessRefused([...checkDwell(input), ...checkResidual(input.residual), ...checkPatient(input)], () => {
    const around = surroundingsOf(input);
    const course = runDwell(input, around);
    return course.emptyAtMinute === null
      ? computed(dwellEndOf(input, input.plasmaMmolPerL ?? MEAN_PLASMA, around.membrane.lymphMlPerMin, course))
      : refused(emptyAt(course.emptyAtMinute));
  });

/** What a finished course says. */
export function dwellEndOf(
  input: Pick<DwellInput, 'bag' | 'residual' | 'dwellMinutes'>,
  plasma: PerSolute,
  lymphMlPerMin: number,
  { start, end, peakMl }: Course,
): DwellEnd {
  const startMmolPerL = concentrationsOf(start);
  const endMmolPerL = concentrationsOf(end);
  const { bag, residual, dwellMinutes } = input;
  const endMl = end[AT.volumeMl]!;
  const absorbedMmol = start[AT.glucose]! - end[AT.glucose]!;
  return {
    ultrafiltrationMl: endMl - start[AT.volumeMl]!,
    drainMl: endMl - residual.volumeMl,
    mostInsideMl: peakMl,
    startMmolPerL,
    endMmolPerL,
    endIcodextrinGPerL: (1000 * end[AT.icodextrinG]!) / endMl,
    dOverD0Glucose: bag.glucoseMmolPerL > 0 ? endMmolPerL.glucose / startMmolPerL.glucose : null,
    dOverP: {
      glucose: endMmolPerL.glucose / plasma.glucose,
      creatinine: endMmolPerL.creatinine / plasma.creatinine,
      urea: endMmolPerL.urea / plasma.urea,
      sodium: endMmolPerL.sodium / plasma.sodium,
    },
    sodiumFallMmolPerL: startMmolPerL.sodium - endMmolPerL.sodium,
    glucoseAbsorbedG: absorbedMmol * GLUCOSE_G_PER_MMOL,
    glucoseAbsorbedShare: bag.glucoseMmolPerL > 0 ? absorbedMmol / start[AT.glucose]! : null,
    icodextrinAbsorbedShare: bag.icodextrinGPerL > 0 ? 1 - end[AT.icodextrinG]! / start[AT.icodextrinG]! : null,
    lymphMl: lymphMlPerMin * dwellMinutes,
  };
}
