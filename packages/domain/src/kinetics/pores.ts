import { PER_SOLUTE, type PerSolute, POPULATION, SOLUTES } from './parameters.ts';

/**
 * Reflection coefficient of a sphere in a cylindrical pore, 0 (passes like water) to 1 (does not pass).
 * @param soluteRadiusA radius of the solute, Å, > 0
 * @param poreRadiusA radius of the pore, Å, > 0
 * Source: pore theory, φ = (1 − λ)², 1 − σ = φ(2 − φ)(1 − λ/3)/(1 − λ/3 + 2λ²/3), λ = r_solute/r_pore (from memory).
 */
function reflection(soluteRadiusA: number, poreRadiusA: number): number {
  const lambda = soluteRadiusA / poreRadiusA;
  if (lambda >= 1) return 1;
  const partition = (1 - lambda) ** 2;
  return 1 - (partition * (2 - partition) * (1 - lambda / 3)) / (1 - lambda / 3 + (2 * lambda ** 2) / 3);
}

const perSolute = (value: (radiusA: number) => number): PerSolute =>
  Object.fromEntries(SOLUTES.map((solute) => [solute, value(PER_SOLUTE.radiusA.values[solute])])) as PerSolute;

const smallA = POPULATION.smallPoreRadiusA.value;
const largeA = POPULATION.largePoreRadiusA.value;

/** Reflection of each solute in the small and the large pores. */
export const REFLECTION_SMALL = perSolute((radiusA) => reflection(radiusA, smallA));
export const REFLECTION_LARGE = perSolute((radiusA) => reflection(radiusA, largeA));

/** Reflection of plasma protein in both. */
export const PROTEIN_REFLECTION_SMALL = reflection(POPULATION.proteinRadiusA.value, smallA);
export const PROTEIN_REFLECTION_LARGE = reflection(POPULATION.proteinRadiusA.value, largeA);

/** PS of the large pores over PS of the small ones: shares of A0/dx go as (share of LpS)/r². */
export const LARGE_OVER_SMALL_PS =
  POPULATION.largePoreShare.value / largeA ** 2 / (POPULATION.smallPoreShare.value / smallA ** 2);

/**
 * Osmotic conductance to glucose, LpS · Σ a·σ, mL/min/mmHg.
 * @param lpSMlPerMinPerMmHg ultrafiltration coefficient, mL/min/mmHg, > 0
 */
export const osmoticConductanceToGlucose = (lpSMlPerMinPerMmHg: number): number =>
  lpSMlPerMinPerMmHg *
  (POPULATION.waterPoreShare.value +
    POPULATION.smallPoreShare.value * REFLECTION_SMALL.glucose +
    POPULATION.largePoreShare.value * REFLECTION_LARGE.glucose);
