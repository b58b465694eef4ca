import type { Problem } from '../record/problem.ts';
import { checkNumber, type Range } from '../units/ranges.ts';
import { AT } from './equations.ts';
import type { Bag, Residual } from './fluid.ts';
import type { Membrane } from './membrane.ts';
import { MEAN_PLASMA, type PerSolute } from './parameters.ts';
import { checkDwell, checkPatient, checkResidual } from './ranges.ts';
import { COARSE_STEP_MINUTES, concentrationsOf, runDwell } from './run-dwell.ts';
import { surroundingsOf } from './surroundings.ts';

/** A 4 h membrane test as it was done. */
export type FittedTest = {
  bag: Bag;
  fillMl: number;
  dwellMinutes: number;
  residual: Residual;
  plasmaMmolPerL?: PerSolute;
  /** Dialysate over plasma creatinine at the end, corrected for glucose. */
  dOverPCreatinine: number;
};

/** D/P creatinine tells membranes apart at 4 h; at 8 h and beyond it no longer rises with A0/dx. */
const TEST_MINUTES: Range = { least: 180, most: 300, unit: 'min' };

export const checkTest = (test: FittedTest): readonly Problem[] => {
  const problems = [...checkDwell(test), ...checkResidual(test.residual), ...checkPatient(test)];
  const length = checkNumber('dwellMinutes', test.dwellMinutes, TEST_MINUTES);
  return [...problems.filter(({ field }) => field !== 'dwellMinutes'), ...length];
};

/** What the model makes of the test with one membrane; NaN where the cavity would run down. */
export function modelledTest(test: FittedTest, membrane: Membrane): { dOverPCreatinine: number; drainMl: number } {
  const around = surroundingsOf({ ...test, membrane });
  const { end, emptyAtMinute } = runDwell(test, around, COARSE_STEP_MINUTES);
  if (emptyAtMinute !== null) return { dOverPCreatinine: Number.NaN, drainMl: Number.NaN };
  return {
    dOverPCreatinine: concentrationsOf(end).creatinine / (test.plasmaMmolPerL ?? MEAN_PLASMA).creatinine,
    drainMl: end[AT.volumeMl]! - test.residual.volumeMl,
  };
}
