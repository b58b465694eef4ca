import { compositionOf, STANDARD_LACTATE_SALTS } from '../../../packages/domain/src/solution/composition.ts';
import {
  absorbedByDieteticShareG,
  absorbedByGrodsteinMonohydrateG,
  absorbedByMeasureG,
  absorbedByTestG,
} from '../../../packages/domain/src/solution/composition-absorption.ts';
import { energyKcal } from '../../../packages/domain/src/solution/composition-energy.ts';
import {
  ANHYDROUS_PER_MONOHYDRATE,
  anhydrousGPerL,
  type GlucoseFill,
  glucoseLoadG,
} from '../../../packages/domain/src/solution/composition-glucose.ts';
import type { Computations } from '../rows.ts';

/** Published examples count dextrose monohydrate; the domain counts anhydrous glucose. */
const fillsOf = (fills: readonly { dextroseGPerL: number; filledMl: number }[]): readonly GlucoseFill[] =>
  fills.map(({ dextroseGPerL, filledMl }) => ({ glucoseGPerL: anhydrousGPerL(dextroseGPerL).value!, filledMl }));

export const SOLUTION_COMPOSITION: Computations = {
  composition: (recipe) => compositionOf({ ...STANDARD_LACTATE_SALTS, ...recipe }),
  anhydrous: ({ gPerL }) => anhydrousGPerL(gPerL),
  dextroseLoad: ({ fills }) => glucoseLoadG(fillsOf(fills)).value! / ANHYDROUS_PER_MONOHYDRATE,
  dieteticDextrose: ({ fills, dwells }) =>
    absorbedByDieteticShareG(fillsOf(fills), dwells).value! / ANHYDROUS_PER_MONOHYDRATE,
  dieteticKcal: ({ fills, dwells }) => energyKcal(absorbedByDieteticShareG(fillsOf(fills), dwells).value!, 'anhydrous'),
  grodstein: ({ fills }) => absorbedByGrodsteinMonohydrateG(fillsOf(fills)),
  byTest: ({ fills, ddGlucose }) => absorbedByTestG(fills, ddGlucose),
  byMeasure: ({ fills, drained }) => absorbedByMeasureG(fills, drained),
};
