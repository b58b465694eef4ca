import type { BedsideState } from '../bedside/state.ts';
import type { Draft } from '../record/entry.ts';
import type { Problem } from '../record/problem.ts';
import { type Judge, refusal } from './judge-types.ts';
import type { Step } from './steps.ts';
import { mayTake } from './table.ts';

/** What holds for every step: a patient on the ward, the table, and the visit that is under way. */
export function stepRule(state: BedsideState, draft: Draft<Step>): readonly Problem[] {
  if (state.stay === null) return [refusal('not-admitted', 'The patient is on no ward: admit first.', 'patientId')];
  const rule = mayTake(state.visit?.state ?? 'none', draft.kind);
  if (!rule.allowed) return [refusal(rule.code, rule.why, 'kind', draft.kind)];
  return visitProblems(state, draft);
}

function visitProblems(state: BedsideState, { kind, visitId }: Draft<Step>): readonly Problem[] {
  const problem = (message: string) => [refusal('another-visit', message, 'visitId', visitId)];
  if (visitId === null) return problem('A step belongs to a visit: visitId is missing.');
  if (kind === 'prepare') {
    return visitId === state.lastVisit?.id ? problem('That visit has ended: a new one has a new visitId.') : [];
  }
  const expected = kind === 'resume' ? state.lastVisit?.id : state.visit?.id;
  return visitId === expected ? [] : problem('The step names another visit than the one at this bed.');
}

/** Left empty is said where no fill was given, and only there. */
export const closeRule: Judge<'close'> = (state, draft) => {
  const problems = stepRule(state, draft);
  if (problems.length > 0) return problems;
  const filled = state.visit?.state === 'closing';
  if (!filled || !draft.payload.leftEmpty) return [];
  return [refusal('filled', 'A fill was given: the cavity is not left empty.', 'payload.leftEmpty', true, 'false')];
};

export const stopRule: Judge<'stop'> = (state, draft) => {
  const problems = stepRule(state, draft);
  if (problems.length > 0) return problems;
  const { infused, reason, contamination } = draft.payload;
  const filling = state.visit?.state === 'filling';
  const result: Problem[] = [];
  if (filling && infused === null) {
    result.push(
      refusal('missing', 'A fill was running: say what went in, or that it is not known.', 'payload.infused'),
    );
  }
  if (!filling && infused !== null) {
    result.push(refusal('no-fill-runs', 'No fill was running: nothing went in.', 'payload.infused', infused, 'none'));
  }
  if (reason === 'sterilityBroken' && contamination === null) {
    result.push(refusal('missing', 'Say whether the contamination was wet or dry.', 'payload.contamination'));
  }
  return result;
};

/** A stopped visit goes on; after broken sterility only with a new set. */
export const resumeRule: Judge<'resume'> = (state, draft) => {
  const problems = stepRule(state, draft);
  if (problems.length > 0) return problems;
  const stopped = state.lastVisit?.stopped ?? null;
  if (stopped === null) return [refusal('not-stopped', 'The last visit was closed, not stopped: prepare a new one.')];
  if (stopped.reason === 'sterilityBroken' && stopped.contamination?.setChanged !== true) {
    return [
      refusal('set-not-changed', 'Sterility was broken and the set not changed: prepare a new visit after the change.'),
    ];
  }
  return [];
};
