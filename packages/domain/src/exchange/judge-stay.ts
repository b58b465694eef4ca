import type { BedsideState } from '../bedside/state.ts';
import type { Problem } from '../record/problem.ts';
import { type Judge, refusal } from './judge-types.ts';

export const admittedRule: Judge<'admitted'> = (state) =>
  state.stay === null
    ? []
    : [refusal('admitted-already', 'The patient is on a ward already.', 'patientId', state.stay.wardId, 'no stay')];

export const stayRule = (state: BedsideState): readonly Problem[] =>
  state.stay === null ? [refusal('not-admitted', 'The patient is on no ward: admit first.', 'patientId')] : [];

/** Nobody leaves while connected: the visit is closed or stopped first. */
export function leavingRule(state: BedsideState): readonly Problem[] {
  const problems = stayRule(state);
  if (problems.length > 0 || state.visit === null) return problems;
  return [refusal('visit-under-way', 'A visit is under way: close or stop it first.', 'kind', state.visit.state)];
}

export const returnedRule: Judge<'returned'> = (state) =>
  state.stay !== null && state.stay.offWard === null
    ? [refusal('on-the-ward', 'The patient is on the ward.', 'kind')]
    : stayRule(state);
