import type { Problem } from '../record/problem.ts';
import { type Computed, computed, refused, unlessRefused } from '../units/computed.ts';
import { type Membrane, populationMembrane } from './membrane.ts';
import { checkTest, type FittedTest, modelledTest } from './membrane-test.ts';
import { AREA_RANGE } from './ranges.ts';
import { rootBetween } from './root.ts';

/** ln A0/dx is found to this: 0.01 cm in 25,000. */
const WITHIN_LN = 4e-7;
/** From here on a hundredth of D/P says little, and the answer says so. Chosen; at D/P 0.65 it is worth 800 cm. */
const STEEP_CM_PER_HUNDREDTH = 2_000;

/**
 * A0/dx (cm) at which the model shows the measured D/P creatinine of a 4 h test: D/P rises strictly with A0/dx at 4 h.
 * Out of reach is refused with the range that can be reached, never clamped. Near the top, where a hundredth of D/P is
 * worth thousands of cm, an issue says how many.
 * @param test the test with its own strength, fill, length (180 to 300 min), residual and plasma
 * @param base the lymph flow and LpS that go with it
 */
export const fitAreaOverLength = (test: FittedTest, base: Membrane = populationMembrane()): Computed<number> =>
  unlessRefused(checkTest(test), () => {
    const fit = areaFor(test, base);
    return fit.areaOverLengthCm === null
      ? refused(fit.problem)
      : computed(fit.areaOverLengthCm, steepness(test, { ...base, areaOverLengthCm: fit.areaOverLengthCm }));
  });

/** Out of reach there is no A0/dx; which end of the range lies nearest is for a search to steer by, never for an answer. */
export type AreaFor = { areaOverLengthCm: number } | { areaOverLengthCm: null; nearestCm: number; problem: Problem };

/** The same for a test that has been checked. */
export function areaFor(test: FittedTest, base: Membrane): AreaFor {
  const dOverPAt = (lnArea: number): number =>
    modelledTest(test, { ...base, areaOverLengthCm: Math.exp(lnArea) }).dOverPCreatinine;
  const low = Math.log(AREA_RANGE.least);
  const high = Math.log(AREA_RANGE.most);
  const least = dOverPAt(low);
  const most = dOverPAt(high);
  const measured = test.dOverPCreatinine;
  if (!(measured >= least && measured <= most)) {
    const nearestCm = measured > most ? AREA_RANGE.most : AREA_RANGE.least;
    return { areaOverLengthCm: null, nearestCm, problem: outOfReach(measured, least, most) };
  }
  const missBy = (lnArea: number): number => dOverPAt(lnArea) - measured;
  return { areaOverLengthCm: Math.exp(rootBetween(missBy, low, high, least - measured, most - measured, WITHIN_LN)) };
}

const outOfReach = (value: number, least: number, most: number): Problem => {
  const allowed = `${least.toFixed(3)} to ${most.toFixed(3)}`;
  return {
    code: 'out-of-reach',
    field: 'dOverPCreatinine',
    value,
    allowed,
    message: `dOverPCreatinine is ${value}; with this strength, fill and length the model reaches ${allowed}`,
  };
};

function steepness(test: FittedTest, fitted: Membrane): readonly Problem[] {
  const { areaOverLengthCm } = fitted;
  const lower = areaOverLengthCm * 0.99;
  const change = test.dOverPCreatinine - modelledTest(test, { ...fitted, areaOverLengthCm: lower }).dOverPCreatinine;
  const cmPerHundredth = (0.01 * (areaOverLengthCm - lower)) / change;
  if (cmPerHundredth < STEEP_CM_PER_HUNDREDTH) return [];
  const rounded = Math.round(cmPerHundredth / 100) * 100;
  return [
    {
      code: 'near-top',
      field: 'dOverPCreatinine',
      value: test.dOverPCreatinine,
      allowed: `a D/P of which 0.01 is worth less than ${STEEP_CM_PER_HUNDREDTH} cm of A0/dx`,
      message: `Near the top of what the model reaches: 0.01 of D/P is worth ${rounded} cm of A0/dx`,
    },
  ];
}
