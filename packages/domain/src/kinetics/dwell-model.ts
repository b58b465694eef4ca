import { AT, pressureAt, STATE_SIZE, type Surroundings, writeRates } from './equations.ts';
import { rungeKuttaStep, workspace } from './integrate.ts';
import { type Membrane, populationMembrane } from './membrane.ts';
import {
  BOUNDS,
  GLUCOSE_G_PER_MMOL,
  ICODEXTRIN,
  MEAN_PLASMA,
  type PerSolute,
  POPULATION,
  SOLUTES,
} from './parameters.ts';

/** What is in the bag. Bags hold no urea and no creatinine. */
export type Bag = { glucoseMmolPerL: number; sodiumMmolPerL: number; icodextrinGPerL: number };

/** Composition of what the last dwell left behind. */
export type Residual = { volumeMl: number; mmolPerL: PerSolute; icodextrinGPerL: number };

export type DwellInput = {
  bag: Bag;
  fillMl: number;
  dwellMinutes: number;
  residual: Residual;
  membrane?: Membrane;
  plasmaMmolPerL?: PerSolute;
};

export type DwellEnd = {
  inside: 'model';
  /** Volume at the end less volume at the start, mL. */
  ultrafiltrationMl: number;
  /** What drains when the residual stays behind, mL. */
  drainMl: number;
  endMmolPerL: PerSolute;
  endIcodextrinGPerL: number;
  startMmolPerL: PerSolute;
  /** End over start of the mixture; null for a fluid without glucose. */
  dOverD0Glucose: number | null;
  dOverP: PerSolute;
  /** Start less end of the mixture, mmol/L. */
  sodiumFallMmolPerL: number;
  glucoseAbsorbedG: number;
  /** Share of what was in the mixture, 0 to 1; null for a fluid without glucose. */
  glucoseAbsorbedShare: number | null;
  lymphMl: number;
};

export type OutsideModel = { inside: 'outside'; why: string };

/** Residual of a patient with no earlier dwell: plasma water at rest. */
export const residualAtRest = (volumeMl: number, plasma: PerSolute = MEAN_PLASMA): Residual => ({
  volumeMl,
  mmolPerL: { glucose: 6, creatinine: 0.8 * plasma.creatinine, urea: plasma.urea, sodium: plasma.sodium },
  icodextrinGPerL: 0,
});

/** The bag of a formulary fluid. Glucose anhydrous, g/L; sodium mmol/L; icodextrin g/L. */
export const bagOf = (glucoseGPerL: number, sodiumMmolPerL: number, icodextrinGPerL = 0): Bag => ({
  glucoseMmolPerL: glucoseGPerL / GLUCOSE_G_PER_MMOL,
  sodiumMmolPerL,
  icodextrinGPerL,
});

/**
 * One dwell of the three-pore model.
 * Fill 500 to 3,500 mL, dwell 1 to 720 min (icodextrin to 960 min); outside that, or where the cavity would run down to
 * the residual, the answer is "outside the model" and no number. An estimate, never an instruction.
 * @param stepMinutes integration step; 5 min is exact to 10⁻⁵ mL
 */
export function simulateDwell(input: DwellInput, stepMinutes = 5): DwellEnd | OutsideModel {
  const outside = whyOutside(input);
  if (outside) return { inside: 'outside', why: outside };
  const around = surroundingsOf(input);
  const state = startOf(input);
  const start = Float64Array.from(state);
  const ended = run(state, around, input, stepMinutes);
  return ended === null
    ? resultOf(input, around, start, state)
    : { inside: 'outside', why: `empty at ${Math.round(ended)} min` };
}

function whyOutside({ bag, fillMl, dwellMinutes, membrane }: DwellInput): string | null {
  const most = bag.icodextrinGPerL > 0 ? BOUNDS.icodextrinMostMinutes : BOUNDS.dwellMostMinutes;
  if (!(fillMl >= BOUNDS.fillLeastMl && fillMl <= BOUNDS.fillMostMl)) {
    return `fill ${fillMl} mL; the model holds from ${BOUNDS.fillLeastMl} to ${BOUNDS.fillMostMl} mL`;
  }
  if (!(dwellMinutes > 0 && dwellMinutes <= most))
    return `dwell ${dwellMinutes} min; the model holds up to ${most} min`;
  const area = membrane?.areaOverLengthCm;
  if (area !== undefined && !(area >= BOUNDS.areaOverLengthLeastCm && area <= BOUNDS.areaOverLengthMostCm)) {
    return `A0/dx ${area} cm; the model holds from ${BOUNDS.areaOverLengthLeastCm} to ${BOUNDS.areaOverLengthMostCm} cm`;
  }
  return null;
}

export const surroundingsOf = (input: DwellInput): Surroundings => ({
  membrane: input.membrane ?? populationMembrane(),
  plasmaMmolPerL: input.plasmaMmolPerL ?? MEAN_PLASMA,
  proteinOncoticMmHg: POPULATION.proteinOncoticMmHg.value,
  pressureMmHg: pressureAt,
});

/** The mixture of fill and residual at the first minute. */
export function startOf({ bag, fillMl, residual }: DwellInput): Float64Array {
  const state = new Float64Array(STATE_SIZE);
  const inBag: PerSolute = { glucose: bag.glucoseMmolPerL, creatinine: 0, urea: 0, sodium: bag.sodiumMmolPerL };
  state[AT.volumeMl] = fillMl + residual.volumeMl;
  for (const solute of SOLUTES) {
    state[AT[solute]] = (fillMl * inBag[solute] + residual.volumeMl * residual.mmolPerL[solute]) / 1000;
  }
  state[AT.icodextrinG] = (fillMl * bag.icodextrinGPerL + residual.volumeMl * residual.icodextrinGPerL) / 1000;
  return state;
}

/** Runs the state to the end in place; the minute at which the cavity ran down to the residual, else null. */
function run(state: Float64Array, around: Surroundings, input: DwellInput, stepMinutes: number): number | null {
  const work = workspace(STATE_SIZE);
  const rates = (minute: number, at: Float64Array, rate: Float64Array) => writeRates(minute, at, around, rate);
  let minute = 0;
  while (minute < input.dwellMinutes) {
    const step = Math.min(stepMinutes, input.dwellMinutes - minute);
    rungeKuttaStep(rates, minute, step, state, work);
    minute += step;
    if (!((state[AT.volumeMl] as number) > input.residual.volumeMl)) return minute;
  }
  return null;
}

const concentrations = (state: Float64Array): PerSolute => {
  const volumeMl = state[AT.volumeMl] as number;
  const mmolPerL = (solute: (typeof SOLUTES)[number]) => (1000 * (state[AT[solute]] as number)) / volumeMl;
  return {
    glucose: mmolPerL('glucose'),
    creatinine: mmolPerL('creatinine'),
    urea: mmolPerL('urea'),
    sodium: mmolPerL('sodium'),
  };
};

function resultOf(input: DwellInput, around: Surroundings, start: Float64Array, end: Float64Array): DwellEnd {
  const startMmolPerL = concentrations(start);
  const endMmolPerL = concentrations(end);
  const plasma = around.plasmaMmolPerL;
  const hasGlucose = input.bag.glucoseMmolPerL > 0;
  const startGlucose = start[AT.glucose] as number;
  const absorbedMmol = startGlucose - (end[AT.glucose] as number);
  return {
    inside: 'model',
    ultrafiltrationMl: (end[AT.volumeMl] as number) - (start[AT.volumeMl] as number),
    drainMl: (end[AT.volumeMl] as number) - input.residual.volumeMl,
    startMmolPerL,
    endMmolPerL,
    endIcodextrinGPerL: (1000 * (end[AT.icodextrinG] as number)) / (end[AT.volumeMl] as number),
    dOverD0Glucose: hasGlucose ? endMmolPerL.glucose / startMmolPerL.glucose : null,
    dOverP: {
      glucose: endMmolPerL.glucose / plasma.glucose,
      creatinine: endMmolPerL.creatinine / plasma.creatinine,
      urea: endMmolPerL.urea / plasma.urea,
      sodium: endMmolPerL.sodium / plasma.sodium,
    },
    sodiumFallMmolPerL: startMmolPerL.sodium - endMmolPerL.sodium,
    glucoseAbsorbedG: absorbedMmol * GLUCOSE_G_PER_MMOL,
    glucoseAbsorbedShare: hasGlucose ? absorbedMmol / startGlucose : null,
    lymphMl: end[AT.lymphMl] as number,
  };
}

/** Icodextrin 7.5 %, as a bag. */
export const ICODEXTRIN_BAG: Bag = { glucoseMmolPerL: 0, sodiumMmolPerL: 133, icodextrinGPerL: ICODEXTRIN.gPerL };
