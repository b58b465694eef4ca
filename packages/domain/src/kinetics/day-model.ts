import {
  type Bag,
  type DwellEnd,
  type OutsideModel,
  type Residual,
  residualAtRest,
  simulateDwell,
} from './dwell-model.ts';
import { type Membrane, populationMembrane } from './membrane.ts';
import { GLUCOSE_G_PER_MMOL, MEAN_PLASMA, type PerSolute } from './parameters.ts';

/** One dwell of a prescribed day. */
export type DayDwell = { bag: Bag; fillMl: number; dwellMinutes: number };

export type DayInput = {
  dwells: readonly DayDwell[];
  residualMl: number;
  membrane?: Membrane;
  plasmaMmolPerL?: PerSolute;
  /** Urea distribution volume (body water), mL. */
  ureaVolumeMl: number;
  bodySurfaceM2: number;
};

export type DayResult = {
  inside: 'model';
  dwells: readonly DwellEnd[];
  ultrafiltrationMl: number;
  weeklyKtV: number;
  creatinineClearanceLPerWeekPer173: number;
  glucoseAbsorbedG: number;
  sodiumRemovedMmol: number;
  /** The fullest the cavity is at the end of any dwell or at the start of any, mL. */
  mostInsideMl: number;
};

const SETTLED = 1e-9;
const MOST_DAYS = 20;

/**
 * A prescribed day repeated until the residual it begins with is the residual it leaves (steady state): each dwell
 * starts with the end composition of the one before.
 * Weekly Kt/V = 7·Σ(drain·D/P urea)/V; creatinine clearance = 7·Σ(drain·D/P)/1000 × 1.73/BSA; absorbed and removed
 * count out of and into the bag. Renal clearance is not in it.
 */
export function simulateDay(input: DayInput): DayResult | OutsideModel {
  const plasma = input.plasmaMmolPerL ?? MEAN_PLASMA;
  let residual = residualAtRest(input.residualMl, plasma);
  for (let day = 0; day < MOST_DAYS; day++) {
    const ends: DwellEnd[] = [];
    const begun = residual;
    for (const dwell of input.dwells) {
      const end = simulateDwell({
        ...dwell,
        residual,
        membrane: input.membrane ?? populationMembrane(input.bodySurfaceM2),
        plasmaMmolPerL: plasma,
      });
      if (end.inside === 'outside') return end;
      ends.push(end);
      residual = { volumeMl: input.residualMl, mmolPerL: end.endMmolPerL, icodextrinGPerL: end.endIcodextrinGPerL };
    }
    if (apart(begun, residual) < SETTLED) return sumOf(input, ends);
  }
  return { inside: 'outside', why: `the day does not settle within ${MOST_DAYS} days` };
}

const apart = (a: Residual, b: Residual): number =>
  Math.max(
    ...(['glucose', 'creatinine', 'urea', 'sodium'] as const).map((s) => Math.abs(a.mmolPerL[s] - b.mmolPerL[s])),
    Math.abs(a.icodextrinGPerL - b.icodextrinGPerL),
  );

function sumOf(input: DayInput, ends: readonly DwellEnd[]): DayResult {
  let ultrafiltrationMl = 0;
  let ureaClearedMl = 0;
  let creatinineClearedMl = 0;
  let glucoseAbsorbedMmol = 0;
  let sodiumRemovedMmol = 0;
  let mostInsideMl = 0;
  for (const [index, end] of ends.entries()) {
    const { bag, fillMl } = input.dwells[index] as DayDwell;
    ultrafiltrationMl += end.ultrafiltrationMl;
    ureaClearedMl += end.drainMl * end.dOverP.urea;
    creatinineClearedMl += end.drainMl * end.dOverP.creatinine;
    glucoseAbsorbedMmol += (fillMl * bag.glucoseMmolPerL - end.drainMl * end.endMmolPerL.glucose) / 1000;
    sodiumRemovedMmol += (end.drainMl * end.endMmolPerL.sodium - fillMl * bag.sodiumMmolPerL) / 1000;
    mostInsideMl = Math.max(mostInsideMl, end.drainMl + input.residualMl, fillMl + input.residualMl);
  }
  return {
    inside: 'model',
    dwells: ends,
    ultrafiltrationMl,
    weeklyKtV: (7 * ureaClearedMl) / input.ureaVolumeMl,
    creatinineClearanceLPerWeekPer173: ((7 * creatinineClearedMl) / 1000) * (1.73 / input.bodySurfaceM2),
    glucoseAbsorbedG: glucoseAbsorbedMmol * GLUCOSE_G_PER_MMOL,
    sodiumRemovedMmol,
    mostInsideMl,
  };
}
