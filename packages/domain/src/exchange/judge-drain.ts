import { tooEarlyToDrain } from '../dwell/additives-inside.ts';
import { isAfterwards, notWatchedProblems } from './afterwards.ts';
import { stepRule } from './judge-step.ts';
import { type Judge, refusal } from './judge-types.ts';

/**
 * A drain that would end an antibiotic's dwell too early asks for a reason, of whoever stands at the bed: a patient in
 * pain is drained. A physician is named where one was asked. What was drained a while ago is entered as it was.
 */
export const startDrainRule: Judge<'startDrain'> = (state, draft, context) => {
  const problems = stepRule(state, draft);
  if (problems.length > 0) return problems;
  if (isAfterwards(draft, context)) return [];
  const tooEarly = tooEarlyToDrain(state, draft.happenedAt, context.policy.zone);
  if (tooEarly === null || (draft.payload.early?.reason ?? '').trim() !== '') return [];
  return [refusal('additive-must-stay', `${tooEarly} Drain now anyway?`, 'payload.early', null, 'a reason')];
};

/** At the bed one sees whether it ran to a stop. */
export const endDrainRule: Judge<'endDrain'> = (state, draft, context) => {
  const problems = stepRule(state, draft);
  if (problems.length > 0 || draft.payload.flow !== null) return problems;
  return notWatchedProblems('payload.flow', 'the flow', draft, context);
};
