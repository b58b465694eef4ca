import type { Dwell } from '../dwell/dwell.ts';
import { type Appearance, KEEP_THE_BAG } from '../effluent/effluent.ts';
import type { Solution } from '../solution/solution.ts';
import { beginLearning } from './begin-learning.ts';
import { type DrainEstimator, learnDrain, passOver } from './drain-estimator.ts';
import { drainKindOf, type NoKind } from './drain-kind.ts';
import { type DrainPrior, modelledDrain } from './drain-model.ts';

/** Why a recorded dwell teaches nothing about the patient's ordinary drains. */
export type PassedOver = NoKind | 'incomplete' | 'afterIncomplete' | 'appearance' | 'outsideModel';

/** What a patient's recorded dwells taught, and which did not. */
export type DrainLearning = {
  estimator: DrainEstimator;
  passedOver: readonly { dwellId: string; because: PassedOver }[];
};

/** May be peritonitis, bowel, bile or bleeding: such a drain is not this patient's ordinary one. */
const NOT_ORDINARY: readonly Appearance[] = [...KEEP_THE_BAG, 'bloody'];

/**
 * Learns from a patient's closed dwells, oldest first. Passed over are incomplete drains, and the drain after one, which
 * brings what that one left; cloudy, milky, brown, green or bloody effluent; volumes, times or fluids that are not known;
 * two strengths in one dwell; and what lies outside the model.
 * A leak is not to be told from a dwell; the estimator lets one odd drain count for little.
 * @param prior what the ward takes to stay behind, and the patient's membrane where it was tested
 */
export function learnDwells(
  dwells: readonly Dwell[],
  formulary: readonly Solution[],
  prior: DrainPrior,
): DrainLearning {
  let estimator = beginLearning();
  const passedOver: { dwellId: string; because: PassedOver }[] = [];
  let before: Dwell | null = null;
  for (const dwell of dwells) {
    const after = isUnfit(dwell, before) ?? learnOne(estimator, dwell, formulary, prior);
    if (typeof after === 'string') {
      passedOver.push({ dwellId: dwell.id, because: after });
      estimator = passOver(estimator);
    } else {
      estimator = after;
    }
    before = dwell;
  }
  return { estimator, passedOver };
}

function isUnfit(dwell: Dwell, before: Dwell | null): PassedOver | null {
  if (dwell.filledMl === null || dwell.drainedMl === null) return 'volumeNotKnown';
  if (!isEmptied(dwell)) return 'incomplete';
  if (before !== null && !isEmptied(before)) return 'afterIncomplete';
  const looks = dwell.drains.flatMap(({ appearance }) => appearance);
  return looks.some((one) => NOT_ORDINARY.includes(one)) ? 'appearance' : null;
}

/** The flow ran to a stop and brought enough, or a person said afterwards that nothing is left. */
const isEmptied = ({ complete, emptyConfirmed }: Dwell): boolean => complete || emptyConfirmed !== null;

function learnOne(
  estimator: DrainEstimator,
  dwell: Dwell,
  formulary: readonly Solution[],
  prior: DrainPrior,
): DrainEstimator | PassedOver {
  const drainStartedAt = dwell.drains[0]?.startedAt;
  if (drainStartedAt === undefined || dwell.drainedMl === null) return 'volumeNotKnown';
  const kind = drainKindOf(dwell.fills, drainStartedAt, formulary);
  if (typeof kind === 'string') return kind;
  const modelled = modelledDrain(kind, prior);
  if (modelled.value === null) return 'outsideModel';
  return learnDrain(estimator, modelled.value, dwell.drainedMl).value ?? 'outsideModel';
}
