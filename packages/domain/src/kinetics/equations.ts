import type { Rates } from './integrate.ts';
import { ICODEXTRIN, inOrder, PER_SOLUTE, POPULATION, SOLUTES } from './parameters.ts';
import {
  LARGE_OVER_SMALL_PS,
  PROTEIN_REFLECTION_LARGE,
  PROTEIN_REFLECTION_SMALL,
  REFLECTION_LARGE,
  REFLECTION_SMALL,
} from './pores.ts';
import { soluteFlow } from './solute-flow.ts';
import type { Surroundings } from './surroundings.ts';

/** Where each quantity stands in the state: volume mL, the four amounts mmol (in the order of SOLUTES), icodextrin g. */
export const AT = { volumeMl: 0, glucose: 1, creatinine: 2, urea: 3, sodium: 4, icodextrinG: 5 } as const;
export const STATE_SIZE = 6;

/** Where each flow stands: water mL/min, then four solutes µmol/min by each pore (into the cavity) and by lymph (out). */
export const FLOW = { water: 0, small: 1, large: 2, lymph: 3, bySmall: 4, byLarge: 8, byLymph: 12 } as const;
export const FLOW_SIZE = 16;

const FIRST_SOLUTE = AT.glucose;
const COUNT = SOLUTES.length;

/** The constants of the inner loop, unwrapped once: a dwell asks for them 200 times. */
const sigmaSmall = inOrder(REFLECTION_SMALL);
const sigmaLarge = inOrder(REFLECTION_LARGE);
const psSmall = inOrder(PER_SOLUTE.psMlPerMin.values);
const mmHgPerMmolPerL = inOrder(PER_SOLUTE.osmoticFactor.values).map((f) => f * POPULATION.mmHgPerMmolPerL.value);
const waterShare = POPULATION.waterPoreShare.value;
const smallShare = POPULATION.smallPoreShare.value;
const largeShare = POPULATION.largePoreShare.value;
const recruitmentExtra = POPULATION.recruitmentExtra.value;
const recruitmentMinutes = POPULATION.recruitmentMinutes.value;
const wettingPerMl = POPULATION.wettingPerMl.value;
const nominalVolumeMl = POPULATION.pressureVolumeMl.value;
const nominalWetting = -Math.expm1(-wettingPerMl * nominalVolumeMl);
const nominalAreaCm = POPULATION.areaOverLengthCm.value;
const colloidMmHgPerGPerL = ICODEXTRIN.mmHgPerGPerL.value;
const colloidWater = ICODEXTRIN.reflectionWater.value;
const colloidSmall = ICODEXTRIN.reflectionSmall.value;
const colloidLarge = ICODEXTRIN.reflectionLarge.value;
const icodextrinLossMlPerMin = ICODEXTRIN.lossMlPerMin.value;

/** Early recruitment × area wetted by the volume × this person's A0/dx, over the nominal area. */
const areaAtWork = (minute: number, volumeMl: number, areaOverLengthCm: number): number =>
  (1 + recruitmentExtra * Math.exp(-minute / recruitmentMinutes)) *
  (-Math.expm1(-wettingPerMl * volumeMl) / nominalWetting) *
  (areaOverLengthCm / nominalAreaCm);

/**
 * Writes every flow at one moment into `flows`: the three-pore equations as they stand in the papers (Rippe, Stelin,
 * Haraldsson 1991, from memory). Positive is into the cavity; lymph is out of it.
 */
export function writeFlows(minute: number, state: Float64Array, around: Surroundings, flows: Float64Array): void {
  const { membrane, plasma, proteinOncoticMmHg: protein } = around;
  const { lpSMlPerMinPerMmHg: lpS, lymphMlPerMin: lymph } = membrane;
  const volumeMl = state[AT.volumeMl]!;
  const perLitre = 1000 / volumeMl;
  const pressure = around.pressureMmHg - (volumeMl - nominalVolumeMl) / around.pressureMlPerMmHg;

  const colloid = colloidMmHgPerGPerL * perLitre * state[AT.icodextrinG]!;
  let waterPull = colloidWater * colloid;
  let smallPull = colloidSmall * colloid;
  let largePull = colloidLarge * colloid;
  for (let i = 0; i < COUNT; i++) {
    const cavity = perLitre * state[FIRST_SOLUTE + i]!;
    const osmotic = mmHgPerMmolPerL[i]! * (cavity - plasma[i]!);
    waterPull += osmotic;
    smallPull += sigmaSmall[i]! * osmotic;
    largePull += sigmaLarge[i]! * osmotic;
  }

  const small = smallShare * lpS * (pressure - PROTEIN_REFLECTION_SMALL * protein + smallPull);
  const large = largeShare * lpS * (pressure - PROTEIN_REFLECTION_LARGE * protein + largePull);
  flows[FLOW.water] = waterShare * lpS * (pressure - protein + waterPull);
  flows[FLOW.small] = small;
  flows[FLOW.large] = large;
  flows[FLOW.lymph] = lymph;

  const area = areaAtWork(minute, volumeMl, membrane.areaOverLengthCm);
  for (let i = 0; i < COUNT; i++) {
    const cavity = perLitre * state[FIRST_SOLUTE + i]!;
    const inPlasma = plasma[i]!;
    const ps = psSmall[i]! * area;
    flows[FLOW.bySmall + i] = soluteFlow(small * (1 - sigmaSmall[i]!), ps, inPlasma, cavity);
    flows[FLOW.byLarge + i] = soluteFlow(large * (1 - sigmaLarge[i]!), ps * LARGE_OVER_SMALL_PS, inPlasma, cavity);
    flows[FLOW.byLymph + i] = lymph * cavity;
  }
}

/** The rate of change of every quantity: what flows in less what lymph takes. */
export function ratesUnder(around: Surroundings): Rates {
  const flows = new Float64Array(FLOW_SIZE);
  const icodextrinClearedMlPerMin = icodextrinLossMlPerMin + around.membrane.lymphMlPerMin;
  return (minute, state, rate) => {
    writeFlows(minute, state, around, flows);
    rate[AT.volumeMl] = flows[FLOW.water]! + flows[FLOW.small]! + flows[FLOW.large]! - flows[FLOW.lymph]!;
    for (let i = 0; i < COUNT; i++) {
      const micromolPerMin = flows[FLOW.bySmall + i]! + flows[FLOW.byLarge + i]! - flows[FLOW.byLymph + i]!;
      rate[FIRST_SOLUTE + i] = micromolPerMin / 1000;
    }
    rate[AT.icodextrinG] = (-icodextrinClearedMlPerMin * state[AT.icodextrinG]!) / state[AT.volumeMl]!;
  };
}
