import { type DwellInput, simulateDwell } from '../../../packages/domain/src/kinetics/dwell-model.ts';
import { AT, ratesUnder, STATE_SIZE } from '../../../packages/domain/src/kinetics/equations.ts';
import { fitAreaOverLength } from '../../../packages/domain/src/kinetics/fit-area.ts';
import { fitMembrane, lpSSensitivityPer100Ml } from '../../../packages/domain/src/kinetics/fit-membrane.ts';
import { residualAtRest } from '../../../packages/domain/src/kinetics/fluid.ts';
import { rungeKuttaStep, workspace } from '../../../packages/domain/src/kinetics/integrate.ts';
import { populationMembrane } from '../../../packages/domain/src/kinetics/membrane.ts';
import { MEAN_PLASMA, POPULATION, type Solute } from '../../../packages/domain/src/kinetics/parameters.ts';
import {
  osmoticConductanceToGlucose,
  PROTEIN_REFLECTION_LARGE,
  PROTEIN_REFLECTION_SMALL,
  REFLECTION_SMALL,
} from '../../../packages/domain/src/kinetics/pores.ts';
import { surroundingsOf } from '../../../packages/domain/src/kinetics/surroundings.ts';
import type { Computations } from '../rows.ts';

/** All rows: 2 L, 300 mL left behind at rest, a mean patient. */
const dwellOf = (glucoseMmolPerL: number, dwellMinutes = 240): DwellInput => ({
  bag: { glucoseMmolPerL, sodiumMmolPerL: 132, icodextrinGPerL: 0 },
  fillMl: 2000,
  dwellMinutes,
  residual: residualAtRest(300),
});

const testOf = ({ glucoseMmolPerL, dOverPCreatinine, dwellMinutes }: TestInput) => {
  const dwell = dwellOf(glucoseMmolPerL, dwellMinutes);
  return { ...dwell, dOverPCreatinine: dOverPCreatinine ?? simulateDwell(dwell).value!.dOverP.creatinine };
};
type TestInput = { glucoseMmolPerL: number; dOverPCreatinine?: number; dwellMinutes?: number };

const ultrafiltrationMl = (glucoseMmolPerL: number, minute: number): number =>
  simulateDwell(dwellOf(glucoseMmolPerL, minute)).value!.ultrafiltrationMl;

export const KINETICS: Computations = {
  reflectionSmall: ({ solute }: { solute: Solute }) => REFLECTION_SMALL[solute],
  reflectionProtein: () => ({ small: PROTEIN_REFLECTION_SMALL, large: PROTEIN_REFLECTION_LARGE }),
  osmoticConductance: () => 1000 * osmoticConductanceToGlucose(POPULATION.lpSMlPerMinPerMmHg.value),
  dwell: ({ glucoseMmolPerL, dwellMinutes, areaOverLengthCm }) =>
    simulateDwell({
      ...dwellOf(glucoseMmolPerL, dwellMinutes),
      membrane: { ...populationMembrane(), ...(areaOverLengthCm === undefined ? {} : { areaOverLengthCm }) },
    }),
  icodextrin: ({ dwellMinutes }) =>
    simulateDwell({
      ...dwellOf(0, dwellMinutes),
      bag: { glucoseMmolPerL: 0, sodiumMmolPerL: 133, icodextrinGPerL: 75 },
    }),
  shareOfPeak: ({ glucoseMmolPerL, minute }) => {
    const { mostInsideMl } = simulateDwell(dwellOf(glucoseMmolPerL, 720)).value!;
    return ultrafiltrationMl(glucoseMmolPerL, minute) / (mostInsideMl - 2300);
  },
  peakMinute: ({ glucoseMmolPerL }) => {
    const minutes = Array.from({ length: 72 }, (_, i) => 10 * (i + 1));
    return minutes.reduce((best, minute) =>
      ultrafiltrationMl(glucoseMmolPerL, minute) > ultrafiltrationMl(glucoseMmolPerL, best) ? minute : best,
    );
  },
  fitArea: (input: TestInput) => fitAreaOverLength(testOf(input)),
  lpSSensitivity: (input: TestInput) => lpSSensitivityPer100Ml(testOf(input), populationMembrane()),
  fitMembrane: ({ drainedMl, sdMl, ...input }) => fitMembrane(testOf(input), { drainedMl, sdMl }),
  /** Everything inside as in plasma, no hydrostatic and no protein pressure. */
  noGradient: () => {
    const around = { ...surroundingsOf(), pressureMmHg: 0, pressureMlPerMmHg: Infinity, proteinOncoticMmHg: 0 };
    const state = new Float64Array(STATE_SIZE);
    state[AT.volumeMl] = 2300;
    for (const solute of ['glucose', 'creatinine', 'urea', 'sodium'] as const) {
      state[AT[solute]] = 2.3 * MEAN_PLASMA[solute];
    }
    const rates = ratesUnder(around);
    const work = workspace(STATE_SIZE);
    for (let minute = 0; minute < 240; minute += 5) rungeKuttaStep(rates, minute, 5, state, work);
    return state[AT.volumeMl]! - 2300;
  },
};
