import type { BedsideState } from '../bedside/state.ts';
import { fluidToTell, sameFluid } from '../cavity/fluid-handover.ts';
import type { FluidHandover } from '../cavity/fluid-said.ts';
import type { Draft } from '../record/entry.ts';
import type { Problem } from '../record/problem.ts';
import { type Judge, refusal } from './judge-types.ts';

export const admittedRule: Judge<'admitted'> = (state) =>
  state.stay === null
    ? []
    : [refusal('admitted-already', 'The patient is on a ward already.', 'patientId', state.stay.wardId, 'no stay')];

export const stayRule = (state: BedsideState): readonly Problem[] =>
  state.stay === null ? [refusal('not-admitted', 'The patient is on no ward: admit first.', 'patientId')] : [];

/** Nobody leaves while connected: the visit is closed or stopped first; nor with fluid that nobody was told of. */
export function leavingRule(
  state: BedsideState,
  { payload }: Draft<'transferredOut'> | Draft<'discharged'>,
): readonly Problem[] {
  const problems = stayRule(state);
  if (problems.length > 0) return problems;
  if (state.visit !== null) {
    return [refusal('visit-under-way', 'A visit is under way: close or stop it first.', 'kind', state.visit.state)];
  }
  return fluidProblems(state, payload.fluid);
}

/** What was told is what is inside by the record now: else the person read out something else. */
function fluidProblems(state: BedsideState, fluid: FluidHandover | undefined): readonly Problem[] {
  const inside = fluidToTell(state);
  const field = 'payload.fluid';
  if (inside === null) {
    if (fluid === undefined) return [];
    const message = 'The cavity is empty: there is no fluid to hand over.';
    return [refusal('nothing-inside', message, field, fluid.toWhom, 'left out')];
  }
  const allowed = 'what is inside by the record, and the name of who was told';
  if (fluid === undefined) {
    const message =
      'The patient leaves with fluid inside, or nobody knows: tell volume, strength and time, and say whom.';
    return [refusal('fluid-not-handed-over', message, field, null, allowed)];
  }
  if (sameFluid(fluid.said, inside)) return [];
  const message = 'What is inside has changed in the record since it was read out: look again and tell it anew.';
  return [refusal('fluid-changed', message, `${field}.said`, fluid.said, allowed)];
}

export const returnedRule: Judge<'returned'> = (state) =>
  state.stay !== null && state.stay.offWard === null
    ? [refusal('on-the-ward', 'The patient is on the ward.', 'kind')]
    : stayRule(state);
