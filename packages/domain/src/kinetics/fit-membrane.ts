import type { Problem } from '../record/problem.ts';
import { type Computed, computed, refused, unlessRefused } from '../units/computed.ts';
import { checkNumber, checkNumbers, type Range } from '../units/ranges.ts';
import { areaFor } from './fit-area.ts';
import { type Membrane, populationMembrane } from './membrane.ts';
import { checkTest, type FittedTest, modelledTest } from './membrane-test.ts';
import { FITTED_LPS_RANGE } from './ranges.ts';
import { rootBetween } from './root.ts';

/** The drain that goes with a test. */
export type TestDrain = {
  /** Without flush, mL. */
  drainedMl: number;
  /** One standard deviation of its error, mL. */
  sdMl: number;
};

export type FittedMembrane = {
  membrane: Membrane;
  /** |Δ ln LpS| for 100 mL of error in the drain, A0/dx refitted. */
  sensitivityPer100Ml: number;
  /** How much the test counts against the population, 0 to 1. */
  weight: number;
};

/** Standard deviation of ln LpS among patients (chosen). */
const PRIOR_SD_LN_LPS = 0.25;
/** Only the strongest glucose fluids move enough water to tell LpS apart: 3.86 % (38.6 g/L) to 42.5 g/L. */
const STRONG_BAG: Range = { least: 205, most: 260, unit: 'mmol/L' };
const DRAIN_RANGES = {
  drainedMl: { least: 0, moreThanLeast: true, most: 6_000, unit: 'mL' },
  sdMl: { least: 0, most: 1_000, unit: 'mL' },
} as const satisfies Record<keyof TestDrain, Range>;

/** Searched well beyond what may come out, because the raw fit is drawn towards the population afterwards. */
const SEARCHED = { low: Math.log(FITTED_LPS_RANGE.least / 2), high: Math.log(FITTED_LPS_RANGE.most * 2) };
const WITHIN_LN = 1e-5;
const STEP_LN = 0.01;

/**
 * LpS and A0/dx together, from a 3.86 % test with its drain. The raw fit is drawn towards the population by how much an
 * error of the drain moves it: ln LpS = ln LpS_population + w·(ln LpS_fit − ln LpS_population),
 * w = 0.25²/(0.25² + s²), s = sensitivity × σ_drain ÷ 100 mL; then held within 0.037 to 0.133 mL/min/mmHg.
 * @param base the population's membrane for this body surface; its lymph flow is kept
 */
export const fitMembrane = (
  test: FittedTest,
  drain: TestDrain,
  base: Membrane = populationMembrane(),
): Computed<FittedMembrane> =>
  unlessRefused([...checkTest(test), ...checkStrength(test), ...checkNumbers(drain, DRAIN_RANGES)], () => {
    const raw = lpSFor(test, drain.drainedMl, base);
    if (raw.membrane === null) return refused(raw.problem);
    const sensitivityPer100Ml = lpSSensitivityPer100Ml(test, raw.membrane);
    const s = (sensitivityPer100Ml * drain.sdMl) / 100;
    const weight = PRIOR_SD_LN_LPS ** 2 / (PRIOR_SD_LN_LPS ** 2 + s ** 2);
    const lnPopulation = Math.log(base.lpSMlPerMinPerMmHg);
    const drawn = Math.exp(lnPopulation + weight * (Math.log(raw.membrane.lpSMlPerMinPerMmHg) - lnPopulation));
    const { least, most } = FITTED_LPS_RANGE;
    const shrunk = { ...base, lpSMlPerMinPerMmHg: Math.min(most, Math.max(least, drawn)) };
    const area = areaFor(test, shrunk);
    return area.areaOverLengthCm === null
      ? refused(area.problem)
      : computed({
          membrane: { ...shrunk, areaOverLengthCm: area.areaOverLengthCm },
          sensitivityPer100Ml,
          weight,
        });
  });

const checkStrength = (test: FittedTest): readonly Problem[] =>
  checkNumber('bag.glucoseMmolPerL', test.bag.glucoseMmolPerL, STRONG_BAG);

/**
 * The LpS at which the model, with A0/dx refitted to the D/P creatinine, drains exactly this much. On the way there A0/dx
 * may be out of reach at one end of the search; at the LpS that is found it may not.
 */
function lpSFor(
  test: FittedTest,
  drainedMl: number,
  base: Membrane,
): { membrane: Membrane } | { membrane: null; problem: Problem } {
  const withLpS = (lnLpS: number): Membrane => ({ ...base, lpSMlPerMinPerMmHg: Math.exp(lnLpS) });
  const missBy = (lnLpS: number): number => {
    const area = areaFor(test, withLpS(lnLpS));
    const areaOverLengthCm = area.areaOverLengthCm ?? area.nearestCm;
    return modelledTest(test, { ...withLpS(lnLpS), areaOverLengthCm }).drainMl - drainedMl;
  };
  const { low, high } = SEARCHED;
  const [atLow, atHigh] = [missBy(low), missBy(high)];
  if (!(atLow <= 0 && atHigh >= 0)) {
    return { membrane: null, problem: drainOutOfReach(drainedMl, drainedMl + atLow, drainedMl + atHigh) };
  }
  const found = withLpS(rootBetween(missBy, low, high, atLow, atHigh, WITHIN_LN));
  const area = areaFor(test, found);
  return area.areaOverLengthCm === null
    ? { membrane: null, problem: area.problem }
    : { membrane: { ...found, areaOverLengthCm: area.areaOverLengthCm } };
}

const drainOutOfReach = (value: number, least: number, most: number): Problem => {
  const allowed = `${Math.ceil(least)} to ${Math.floor(most)} mL`;
  return {
    code: 'out-of-reach',
    field: 'drainedMl',
    value,
    allowed,
    message: `drainedMl is ${value}; with this test the model reaches ${allowed}`,
  };
};

/**
 * |Δ ln LpS| for 100 mL more or less in the drain while D/P creatinine stays: from the slopes of drain and D/P in ln LpS
 * and ln A0/dx at the fitted membrane.
 */
export function lpSSensitivityPer100Ml(test: FittedTest, membrane: Membrane): number {
  const at = (lnLpS: number, lnArea: number) =>
    modelledTest(test, {
      ...membrane,
      lpSMlPerMinPerMmHg: membrane.lpSMlPerMinPerMmHg * Math.exp(lnLpS),
      areaOverLengthCm: membrane.areaOverLengthCm * Math.exp(lnArea),
    });
  const slope = (up: ReturnType<typeof at>, down: ReturnType<typeof at>) => ({
    drainMl: (up.drainMl - down.drainMl) / (2 * STEP_LN),
    dOverP: (up.dOverPCreatinine - down.dOverPCreatinine) / (2 * STEP_LN),
  });
  const byLpS = slope(at(STEP_LN, 0), at(-STEP_LN, 0));
  const byArea = slope(at(0, STEP_LN), at(0, -STEP_LN));
  return Math.abs(100 / (byLpS.drainMl - (byArea.drainMl * byLpS.dOverP) / byArea.dOverP));
}
