import { convert } from '../units/convert.ts';

/** Fluid gathered over a time and the concentrations found in it: dialysate or urine. */
export type Collection = {
  /** The volume that was actually mixed and sampled, flush included where it went into the sample, mL. */
  sampledMl: number;
  /** From the discarded drain or void that started it to the last one in it. */
  hours: number;
  ureaMmolPerL: number;
  /** Already corrected for glucose where the laboratory's method needs it, µmol/L. */
  creatinineUmolPerL: number;
};

/** Concentrations in blood taken within the collection. */
export type Plasma = { ureaMmolPerL: number; creatinineUmolPerL: number };

export const HOURS_PER_DAY = 24;
const DAYS_PER_WEEK = 7;

/**
 * Clearance of one solute by one compartment, litres a week: 7 · V(24 h) · C ÷ plasma C.
 * Concentrations in any one unit, since only their ratio counts.
 */
export const clearanceLPerWeek = (
  collection: { sampledMl: number; hours: number },
  concentration: number,
  plasma: number,
): number => {
  const litresPerDay = (collection.sampledMl / 1000) * (HOURS_PER_DAY / collection.hours);
  return DAYS_PER_WEEK * litresPerDay * (concentration / plasma);
};

/** 1 mL/min is 10.08 L a week: derived from the units, not stored. */
const L_PER_WEEK_IN_ML_PER_MIN = convert(1, 'L/wk', 'mL/min').value!;

export const mlPerMinute = (litresPerWeek: number): number => litresPerWeek * L_PER_WEEK_IN_ML_PER_MIN;
