import { GLUCOSE_G_PER_MMOL, MEAN_PLASMA, type PerSolute } from './parameters.ts';

/** What is in the bag. Bags hold no urea and no creatinine. */
export type Bag = { glucoseMmolPerL: number; sodiumMmolPerL: number; icodextrinGPerL: number };

/** What the last dwell left behind, and its composition. */
export type Residual = { volumeMl: number; mmolPerL: PerSolute; icodextrinGPerL: number };

/**
 * The bag of a formulary fluid.
 * @param solution g/L of anhydrous glucose (never taken from a name) and of icodextrin, mmol/L of sodium
 */
export const bagOf = (solution: { glucoseGPerL: number; sodiumMmolPerL: number; icodextrinGPerL: number }): Bag => ({
  glucoseMmolPerL: solution.glucoseGPerL / GLUCOSE_G_PER_MMOL,
  sodiumMmolPerL: solution.sodiumMmolPerL,
  icodextrinGPerL: solution.icodextrinGPerL,
});

/**
 * The residual of a patient with no earlier dwell: plasma at rest, creatinine at 0.8 of it.
 * @param volumeMl what the ward takes to stay behind, mL
 */
export const residualAtRest = (volumeMl: number, plasmaMmolPerL: PerSolute = MEAN_PLASMA): Residual => ({
  volumeMl,
  mmolPerL: {
    glucose: MEAN_PLASMA.glucose,
    creatinine: 0.8 * plasmaMmolPerL.creatinine,
    urea: plasmaMmolPerL.urea,
    sodium: plasmaMmolPerL.sodium,
  },
  icodextrinGPerL: 0,
});
