import type { Problem } from '../record/problem.ts';
import { type Computed, computed, refused, unlessRefused } from '../units/computed.ts';
import { checkNumber } from '../units/ranges.ts';
import { AT } from './equations.ts';
import { type Bag, residualAtRest } from './fluid.ts';
import { type Membrane, populationMembrane } from './membrane.ts';
import { GLUCOSE_G_PER_MMOL } from './parameters.ts';
import { checkDwell, checkPatient, emptyAt, RESIDUAL_RANGE } from './ranges.ts';
import { COARSE_STEP_MINUTES, runDwell } from './run-dwell.ts';
import { surroundingsOf } from './surroundings.ts';

/** A dwell as far as its drain can be foreseen from it. */
export type DrainKind = { bag: Bag; fillMl: number; dwellMinutes: number };

/** What is known of the patient without any of their drains. */
export type DrainPrior = {
  /** What the ward takes to stay behind, mL. */
  residualMl: number;
  /** The population's for the body surface, or fitted to a test; without it the population's for 1.73 m². */
  membrane?: Membrane;
};

/** What the model says about a drain, and what would move it. */
export type ModelledDrain = {
  drainMl: number;
  /** The regressors of `DEVIATIONS`, in that order: mL for one unit of each. */
  regressors: readonly number[];
  /** How much more a drain of this length scatters than a short one, ≥ 1. */
  scatter: number;
  dwellMinutes: number;
};

/** Regressors of a deviation of one: the membrane's in steps of how much people differ. */
const LN_LPS_STEP = 0.25;
const LN_AREA_STEP = 0.4;
const LYMPH_STEP_ML_PER_MIN = 0.35;
/** For the slopes; lymph is always more than this. */
const SLOPE_STEP = 0.05;
const MIDDLE_PERCENT = 2.27;
const STRENGTHS_APART_PERCENT = 1.25;
const TEST_MINUTES = 240;
/** How the scatter of drains grows with their length before any is seen; what is seen takes over. */
const SCATTER_MINUTES = 900;

/**
 * Ways in which one patient's drains differ from the model, in the order of the regressors: a fixed amount;
 * ultrafiltration coefficient, area and lymph flow; with the length beyond 4 h, alone and by strength of glucose,
 * because the model is known to be wrong there; a fixed amount with icodextrin, whose sources differ twofold; and, last,
 * what the drain before left behind beyond the usual. Standard deviation among patients, and how far each may wander from
 * one drain to the next.
 */
export const DEVIATIONS = [
  { name: 'offset', priorSd: 60, walkSd: 3 },
  { name: 'lpS', priorSd: 1, walkSd: 0.02 },
  { name: 'area', priorSd: 1, walkSd: 0.02 },
  { name: 'lymph', priorSd: 1, walkSd: 0.02 },
  { name: 'beyond 4 h', priorSd: 300, walkSd: 3 },
  { name: 'beyond 4 h, by strength', priorSd: 250, walkSd: 3 },
  { name: 'icodextrin', priorSd: 200, walkSd: 3 },
  { name: 'left behind by the last drain', priorSd: 60, walkSd: 0 },
] as const;

/** The drain of a dwell by the model; outside the model a problem and no number. */
export const modelledDrain = (kind: DrainKind, prior: DrainPrior): Computed<ModelledDrain> =>
  unlessRefused(
    [...checkDwell(kind), ...checkNumber('residualMl', prior.residualMl, RESIDUAL_RANGE), ...checkPatient(prior)],
    () => {
      const membrane = prior.membrane ?? populationMembrane();
      const residual = residualAtRest(prior.residualMl);
      let problem: Problem | null = null;
      const drainWith = (change: Partial<Membrane>): number => {
        const around = surroundingsOf({ membrane: { ...membrane, ...change } });
        const { end, emptyAtMinute } = runDwell({ ...kind, residual }, around, COARSE_STEP_MINUTES);
        if (emptyAtMinute !== null) problem ??= emptyAt(emptyAtMinute);
        return end[AT.volumeMl]! - prior.residualMl;
      };
      const { lpSMlPerMinPerMmHg: lpS, areaOverLengthCm: area, lymphMlPerMin: lymph } = membrane;
      const drainMl = drainWith({});
      const byLnLpS = (drainWith({ lpSMlPerMinPerMmHg: lpS * Math.exp(SLOPE_STEP) }) - drainMl) / SLOPE_STEP;
      const byLnArea = (drainWith({ areaOverLengthCm: area * Math.exp(SLOPE_STEP) }) - drainMl) / SLOPE_STEP;
      const byLymph = (drainWith({ lymphMlPerMin: lymph + SLOPE_STEP }) - drainMl) / SLOPE_STEP;
      if (problem !== null) return refused(problem);

      const isIcodextrin = kind.bag.icodextrinGPerL > 0;
      const beyond = isIcodextrin ? 0 : Math.max(0, kind.dwellMinutes - TEST_MINUTES) / TEST_MINUTES;
      const percent = (kind.bag.glucoseMmolPerL * GLUCOSE_G_PER_MMOL) / 10;
      return computed({
        drainMl,
        regressors: [
          1,
          LN_LPS_STEP * byLnLpS,
          LN_AREA_STEP * byLnArea,
          LYMPH_STEP_ML_PER_MIN * byLymph,
          beyond,
          (beyond * (percent - MIDDLE_PERCENT)) / STRENGTHS_APART_PERCENT,
          isIcodextrin ? 1 : 0,
          1,
        ],
        dwellMinutes: kind.dwellMinutes,
        scatter: Math.sqrt(1 + (kind.dwellMinutes / SCATTER_MINUTES) ** 2),
      });
    },
  );
