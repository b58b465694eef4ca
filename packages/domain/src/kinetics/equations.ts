import type { Membrane } from './membrane.ts';
import { ICODEXTRIN, OSMOTIC_FACTOR, type PerSolute, POPULATION, PS_ML_PER_MIN, SOLUTES } from './parameters.ts';
import {
  LARGE_OVER_SMALL_PS,
  PROTEIN_REFLECTION_LARGE,
  PROTEIN_REFLECTION_SMALL,
  REFLECTION_LARGE,
  REFLECTION_SMALL,
} from './pores.ts';
import { soluteFlow } from './solute-flow.ts';

/** Where each quantity stands in the state: volume mL, four amounts mmol, icodextrin g, lymph taken up so far mL. */
export const AT = { volumeMl: 0, glucose: 1, creatinine: 2, urea: 3, sodium: 4, icodextrinG: 5, lymphMl: 6 } as const;
export const STATE_SIZE = 7;

/** What a dwell runs under; all constant while it lasts. */
export type Surroundings = {
  membrane: Membrane;
  plasmaMmolPerL: PerSolute;
  /** Oncotic pressure of plasma protein, mmHg. */
  proteinOncoticMmHg: number;
  /** Hydrostatic pressure at a volume, mmHg. */
  pressureMmHg: (volumeMl: number) => number;
};

const { recruitmentExtra, recruitmentMinutes, wettingPerMl, pressureVolumeMl, areaOverLengthCm } = POPULATION;
const wholeWetting = -Math.expm1(-wettingPerMl.value * pressureVolumeMl.value);

/** dP(V) = dP0 − (V − 2250)/490, mmHg: a fuller cavity pushes back. */
export const pressureAt = (volumeMl: number): number =>
  POPULATION.pressureMmHg.value - (volumeMl - pressureVolumeMl.value) / POPULATION.pressureMlPerMmHg.value;

/** Share of the nominal area at work: early recruitment × wetted by the volume × this person's A0/dx. */
export const areaAtWork = (minute: number, volumeMl: number, membrane: Membrane): number =>
  (1 + recruitmentExtra.value * Math.exp(-minute / recruitmentMinutes.value)) *
  (-Math.expm1(-wettingPerMl.value * volumeMl) / wholeWetting) *
  (membrane.areaOverLengthCm / areaOverLengthCm.value);

/**
 * Writes the rate of change of every quantity into `rate`: the three-pore equations as they stand in the papers
 * (Rippe, Stelin, Haraldsson 1991, from memory). Flows are positive into the cavity.
 */
export function writeRates(minute: number, state: Float64Array, around: Surroundings, rate: Float64Array): void {
  const volumeMl = state[AT.volumeMl] as number;
  const { membrane, plasmaMmolPerL } = around;
  const icodextrinGPerL = (1000 * (state[AT.icodextrinG] as number)) / volumeMl;
  const colloidMmHg = ICODEXTRIN.mmHgPerGPerL * icodextrinGPerL;

  let waterPull = ICODEXTRIN.reflectionWater * colloidMmHg;
  let smallPull = ICODEXTRIN.reflectionSmall * colloidMmHg;
  let largePull = ICODEXTRIN.reflectionLarge * colloidMmHg;
  for (const solute of SOLUTES) {
    const cavity = (1000 * (state[AT[solute]] as number)) / volumeMl;
    const osmoticMmHg = POPULATION.mmHgPerMmolPerL.value * OSMOTIC_FACTOR[solute] * (cavity - plasmaMmolPerL[solute]);
    waterPull += osmoticMmHg;
    smallPull += REFLECTION_SMALL[solute] * osmoticMmHg;
    largePull += REFLECTION_LARGE[solute] * osmoticMmHg;
  }

  const pressure = around.pressureMmHg(volumeMl);
  const { proteinOncoticMmHg } = around;
  const lpS = membrane.lpSMlPerMinPerMmHg;
  const throughWater = POPULATION.waterPoreShare.value * lpS * (pressure - proteinOncoticMmHg + waterPull);
  const throughSmall =
    POPULATION.smallPoreShare.value * lpS * (pressure - PROTEIN_REFLECTION_SMALL * proteinOncoticMmHg + smallPull);
  const throughLarge =
    POPULATION.largePoreShare.value * lpS * (pressure - PROTEIN_REFLECTION_LARGE * proteinOncoticMmHg + largePull);

  const area = areaAtWork(minute, volumeMl, membrane);
  for (const solute of SOLUTES) {
    const cavity = (1000 * (state[AT[solute]] as number)) / volumeMl;
    const psSmall = PS_ML_PER_MIN[solute] * area;
    const small = soluteFlow(throughSmall * (1 - REFLECTION_SMALL[solute]), psSmall, plasmaMmolPerL[solute], cavity);
    const psLarge = psSmall * LARGE_OVER_SMALL_PS;
    const large = soluteFlow(throughLarge * (1 - REFLECTION_LARGE[solute]), psLarge, plasmaMmolPerL[solute], cavity);
    rate[AT[solute]] = (small + large - membrane.lymphMlPerMin * cavity) / 1000;
  }
  rate[AT.icodextrinG] = (-(ICODEXTRIN.lossMlPerMin + membrane.lymphMlPerMin) * icodextrinGPerL) / 1000;
  rate[AT.volumeMl] = throughWater + throughSmall + throughLarge - membrane.lymphMlPerMin;
  rate[AT.lymphMl] = membrane.lymphMlPerMin;
}
