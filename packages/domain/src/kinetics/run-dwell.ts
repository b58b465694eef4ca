import { AT, ratesUnder, STATE_SIZE } from './equations.ts';
import type { Bag, Residual } from './fluid.ts';
import { rungeKuttaStep, workspace } from './integrate.ts';
import { type PerSolute, SOLUTES } from './parameters.ts';
import type { Surroundings } from './surroundings.ts';

/** A dwell whose numbers have been checked. */
export type Dwelling = { bag: Bag; fillMl: number; dwellMinutes: number; residual: Residual };

/** Volume and amounts at the start and the end, the fullest between them, and when the cavity ran down, if it did. */
export type Course = { start: Float64Array; end: Float64Array; peakMl: number; emptyAtMinute: number | null };

/**
 * For one dwell that is shown: the volume of a 4 h dwell of 2 L is within 10⁻⁵ mL of an adaptive solver; the worst that
 * the bounds allow (fastest membrane, 500 mL of the strongest fluid) is 0.002 mL.
 */
const STEP_MINUTES = 4;
/** Where many are run: within 0.001 mL, at worst 0.07 mL. */
export const COARSE_STEP_MINUTES = 10;

/** The mixture of fill and residual at the first minute. */
export function mixtureOf({ bag, fillMl, residual }: Omit<Dwelling, 'dwellMinutes'>): Float64Array {
  const state = new Float64Array(STATE_SIZE);
  const inBag: PerSolute = { glucose: bag.glucoseMmolPerL, creatinine: 0, urea: 0, sodium: bag.sodiumMmolPerL };
  state[AT.volumeMl] = fillMl + residual.volumeMl;
  for (const solute of SOLUTES) {
    state[AT[solute]] = (fillMl * inBag[solute] + residual.volumeMl * residual.mmolPerL[solute]) / 1000;
  }
  state[AT.icodextrinG] = (fillMl * bag.icodextrinGPerL + residual.volumeMl * residual.icodextrinGPerL) / 1000;
  return state;
}

/**
 * Runs one dwell; checks nothing.
 * @param stepMinutes last step shortened to land on the end
 * @returns stops at the step after which no more than the residual is left
 */
export function runDwell(dwelling: Dwelling, around: Surroundings, stepMinutes: number = STEP_MINUTES): Course {
  const { dwellMinutes, residual } = dwelling;
  const start = mixtureOf(dwelling);
  const state = start.slice();
  const rates = ratesUnder(around);
  const work = workspace(STATE_SIZE);
  let peakMl = start[AT.volumeMl]!;
  let minute = 0;
  while (minute < dwellMinutes) {
    const step = Math.min(stepMinutes, dwellMinutes - minute);
    rungeKuttaStep(rates, minute, step, state, work);
    minute += step;
    const volumeMl = state[AT.volumeMl]!;
    if (volumeMl > peakMl) peakMl = volumeMl;
    if (!(volumeMl > residual.volumeMl)) return { start, end: state, peakMl, emptyAtMinute: minute };
  }
  return { start, end: state, peakMl, emptyAtMinute: null };
}

/** Concentrations of a state, mmol/L. */
export const concentrationsOf = (state: Float64Array): PerSolute => {
  const litres = state[AT.volumeMl]! / 1000;
  return {
    glucose: state[AT.glucose]! / litres,
    creatinine: state[AT.creatinine]! / litres,
    urea: state[AT.urea]! / litres,
    sodium: state[AT.sodium]! / litres,
  };
};
