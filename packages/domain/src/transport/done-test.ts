import type { EpochMs } from '../time/instant.ts';
import type { CreatinineMethod } from './creatinine-correction.ts';

/** One sample of dialysate; `takenAt` of the zero sample is the end of the fill. */
export type DialysateSample = {
  takenAt: EpochMs;
  creatinineUmolPerL: number;
  glucoseMmolPerL: number;
  /** mmol/L by ion-selective electrode or flame; null = not measured. */
  sodiumMmolPerL: number | null;
};

export type BloodSample = {
  takenAt: EpochMs;
  creatinineUmolPerL: number;
  glucoseMmolPerL: number;
  sodiumMmolPerL: number | null;
};

/** A membrane test as it was done. */
export type MembraneTest = {
  /** Anhydrous glucose of the fluid, g/L, from the formulary: 22.7 (2.27 %) or 38.6 (3.86 %). */
  glucoseGPerL: number;
  /** The long dwell before it. */
  dwellBeforeHours: number;
  fillStartedAt: EpochMs;
  /** Time zero. */
  fillEndedAt: EpochMs;
  drainStartedAt: EpochMs;
  drainEndedAt: EpochMs;
  /** In order of time; the first is the zero sample, the last the final one. */
  samples: readonly DialysateSample[];
  blood: BloodSample;
  creatinineMethod: CreatinineMethod;
};
