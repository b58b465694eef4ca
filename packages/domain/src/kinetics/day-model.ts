import { type Computed, computed, refused, unlessRefused } from '../units/computed.ts';
import type { Knowledge } from './bands.ts';
import type { DayDwell, DayInput } from './day.ts';
import { type DayFigures, dayFigures } from './day-figures.ts';
import { checkDay } from './day-problems.ts';
import { type DwellEnd, dwellEndOf } from './dwell-model.ts';
import { type Residual, residualAtRest } from './fluid.ts';
import { populationMembrane } from './membrane.ts';
import { MEAN_PLASMA, type PerSolute, SOLUTES } from './parameters.ts';
import { emptyAt } from './ranges.ts';
import { COARSE_STEP_MINUTES, runDwell } from './run-dwell.ts';
import { type Surroundings, surroundingsOf } from './surroundings.ts';

export type Day = DayFigures & { dwells: readonly DwellEnd[] };

/** mmol/L (g/L for icodextrin): a day begins so close to how it ends. The next day would be closer still by 100 times. */
const SETTLED = 1e-4;
const MOST_DAYS = 20;

/**
 * A prescribed day repeated until the residual it begins with is the residual it leaves (steady state): each dwell
 * starts with the end composition of the one before. Estimates with bands, never an instruction. Renal clearance is
 * not in them.
 * @returns problems name the dwell: `dwells.2.fillMl`
 */
export const simulateDay = (input: DayInput): Computed<Day> => unlessRefused(checkDay(input), () => steadyDay(input));

/** The same for a day that has been checked. */
export function steadyDay(input: DayInput): Computed<Day> {
  const plasma = input.plasmaMmolPerL ?? MEAN_PLASMA;
  const membrane = input.membrane ?? populationMembrane(input.bodySurfaceM2);
  const knowledge: Knowledge = input.membrane ? 'fitted' : 'population';
  const around = surroundingsOf({ membrane, plasmaMmolPerL: plasma });
  let begun = residualAtRest(input.residualMl, plasma);
  for (let day = 0; day < MOST_DAYS; day++) {
    const { ends, left, problem } = oneDay(input.dwells, begun, around, plasma);
    if (problem) return refused(problem);
    if (apart(begun, left) < SETTLED) return computed({ ...dayFigures(input, ends, knowledge), dwells: ends });
    begun = left;
  }
  return refused({
    code: 'outside-model',
    field: 'dwells',
    value: input.dwells.length,
    allowed: `a day that settles within ${MOST_DAYS} days`,
    message: `Outside the model: the day does not settle within ${MOST_DAYS} days`,
  });
}

function oneDay(dwells: readonly DayDwell[], begun: Residual, around: Surroundings, plasma: PerSolute) {
  const ends: DwellEnd[] = [];
  let residual = begun;
  for (const [index, dwell] of dwells.entries()) {
    const course = runDwell({ ...dwell, residual }, around, COARSE_STEP_MINUTES);
    if (course.emptyAtMinute !== null) {
      const problem = emptyAt(course.emptyAtMinute);
      return { ends, left: residual, problem: { ...problem, field: `dwells.${index}.${problem.field}` } };
    }
    const end = dwellEndOf({ ...dwell, residual }, plasma, around.membrane.lymphMlPerMin, course);
    ends.push(end);
    residual = { volumeMl: begun.volumeMl, mmolPerL: end.endMmolPerL, icodextrinGPerL: end.endIcodextrinGPerL };
  }
  return { ends, left: residual, problem: null };
}

const apart = (a: Residual, b: Residual): number =>
  SOLUTES.reduce(
    (most, solute) => Math.max(most, Math.abs(a.mmolPerL[solute] - b.mmolPerL[solute])),
    Math.abs(a.icodextrinGPerL - b.icodextrinGPerL),
  );
