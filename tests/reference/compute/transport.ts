import {
  CATEGORY_NAMES,
  CREATININE_BANDS,
  categoryOf,
  GLUCOSE_BANDS,
  type TransportCategory,
} from '../../../packages/domain/src/transport/categories.ts';
import {
  ALKALINE_PICRATE_EXAMPLE,
  correctedCreatinineUmolPerL,
  umolPerLPerMmolPerL,
} from '../../../packages/domain/src/transport/creatinine-correction.ts';
import { freeWater } from '../../../packages/domain/src/transport/free-water.ts';
import { membraneTestResult } from '../../../packages/domain/src/transport/membrane-test.ts';
import { sodiumFall, sodiumRemovedMmol } from '../../../packages/domain/src/transport/sodium.ts';
import { deviationsFromReference, STRONG_TEST_REFERENCE } from '../../../packages/domain/src/transport/strong-test.ts';
import { testUltrafiltration } from '../../../packages/domain/src/transport/ultrafiltration.ts';
import { convert } from '../../../packages/domain/src/units/convert.ts';
import { SUBSTANCES } from '../../../packages/domain/src/units/substances.ts';
import type { Computations } from '../rows.ts';

const { creatinine, glucose } = SUBSTANCES;

export const TRANSPORT: Computations = {
  /** The published checks are in mg/dL, the domain works in SI: there and back. */
  correctedMgPerDl: ({ creatinineMgPerDl, glucoseMgPerDl }) => {
    const corrected = correctedCreatinineUmolPerL(
      convert(creatinineMgPerDl, 'mg/dL', 'umol/L', creatinine).value!,
      convert(glucoseMgPerDl, 'mg/dL', 'mmol/L', glucose).value!,
      ALKALINE_PICRATE_EXAMPLE,
    );
    return corrected.value === null ? corrected : convert(corrected.value, 'umol/L', 'mg/dL', creatinine);
  },
  correctionFactorSi: () => umolPerLPerMmolPerL(ALKALINE_PICRATE_EXAMPLE),
  categoryByCreatinine: ({ ratio }) => categoryOf('dpCreatinine', ratio, CREATININE_BANDS),
  categoryByGlucose: ({ ratio }) => categoryOf('ddGlucose', ratio, GLUCOSE_BANDS),
  categoryName: ({ category }: { category: TransportCategory }) => CATEGORY_NAMES[category],
  membraneTest: membraneTestResult,
  strongTestDeviation: ({ quantity, value }) => deviationsFromReference(quantity, value),
  strongTestExcess: () =>
    STRONG_TEST_REFERENCE.ultrafiltrationUncorrectedMl.mean - STRONG_TEST_REFERENCE.ultrafiltrationCorrectedMl.mean,
  testUltrafiltration,
  freeWater: ({ balance, plasmaSodiumMmolPerL }) => freeWater(balance, plasmaSodiumMmolPerL),
  sodiumFall: ({ zero, oneHour }) => sodiumFall(zero, oneHour),
  sodiumRemoved: sodiumRemovedMmol,
};
