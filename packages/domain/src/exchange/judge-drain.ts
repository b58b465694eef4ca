import { tooEarlyToDrain } from '../dwell/additives-inside.ts';
import { MINUTE_MS } from '../time/instant.ts';
import { AFTERWARDS_MINUTES } from './additive-check.ts';
import { stepRule } from './judge-step.ts';
import { type Judge, refusal } from './judge-types.ts';

/**
 * A drain that would end an antibiotic's dwell too early asks for a reason, of whoever stands at the bed: a patient in
 * pain is drained. A physician is named where one was asked. What was drained a while ago is entered as it was.
 */
export const startDrainRule: Judge<'startDrain'> = (state, draft, { now, policy }) => {
  const problems = stepRule(state, draft);
  if (problems.length > 0) return problems;
  if (draft.happenedAt < now - AFTERWARDS_MINUTES * MINUTE_MS) return [];
  const tooEarly = tooEarlyToDrain(state, draft.happenedAt, policy.zone);
  if (tooEarly === null || (draft.payload.early?.reason ?? '').trim() !== '') return [];
  return [refusal('additive-must-stay', `${tooEarly} Drain now anyway?`, 'payload.early', null, 'a reason')];
};
