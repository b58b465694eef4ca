import { holdsUndrained, newestDwell } from '../bedside/fluid.ts';
import type { BedsideState } from '../bedside/state.ts';
import type { Problem } from '../record/problem.ts';
import { type Judge, refusal } from './judge-types.ts';

/** A second drain that brought less than this, mL, after a change of position, may be taken for empty (common practice). */
const EMPTY_BELOW_ML = 100;

/** A person confirms that the cavity is empty: never over fluid that nobody drained, never while it runs. */
export const confirmedEmptyRule: Judge<'cavityConfirmedEmpty'> = (state, draft) => {
  const stage = state.visit?.state;
  if (stage === 'draining' || stage === 'filling') {
    return [refusal('fluid-runs', 'Fluid is running: end the drain or the fill first.', 'kind')];
  }
  if (holdsUndrained(state)) {
    return [refusal('drain-first', 'Fluid is inside that nobody has drained: drain until the flow stops.', 'kind')];
  }
  const lastDrain = newestDwell(state)?.drains.at(-1);
  if (lastDrain?.endedAt != null && draft.happenedAt < lastDrain.endedAt) {
    return [refusal('before-the-drain', 'The time lies before the end of the drain.', 'happenedAt', draft.happenedAt)];
  }
  return draft.payload.reason === 'secondDrainUnder100Ml' ? secondDrainProblems(state) : [];
};

function secondDrainProblems(state: BedsideState): readonly Problem[] {
  const drains = newestDwell(state)?.drains ?? [];
  const last = drains.at(-1);
  const problem = (message: string) => [
    refusal(
      'no-second-drain',
      message,
      'payload.reason',
      'secondDrainUnder100Ml',
      `a second drain under ${EMPTY_BELOW_ML} mL`,
    ),
  ];
  if (drains.length < 2 || last === undefined) return problem('There was no second drain: drain again after a turn.');
  if (last.flow !== 'stopped') return problem('The flow of the second drain did not run to a stop.');
  if (last.drainedMl === null) return problem('The second drain was not measured.');
  return last.drainedMl < EMPTY_BELOW_ML ? [] : problem(`The second drain brought ${last.drainedMl} mL.`);
}
