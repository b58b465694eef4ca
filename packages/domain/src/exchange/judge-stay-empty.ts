import type { BedsideState } from '../bedside/state.ts';
import { fillAgainst, leavesAgainst, stayEmptyWords } from '../prescription/stay-empty.ts';
import type { Draft } from '../record/entry.ts';
import type { Problem } from '../record/problem.ts';
import { formatClock } from '../words/numbers.ts';
import { BY_ROLE, isOverridden } from './judge-bag.ts';
import { stayRule } from './judge-stay.ts';
import { type Judge, type JudgeContext, refusal } from './judge-types.ts';

/**
 * No bag is prepared or filled into a cavity that is ordered to stay empty, unless a newer order names it, or somebody
 * with the right goes on with a reason, for this visit and against this very order. What was given already is told as
 * it was.
 */
export function stayEmptyProblems(
  state: BedsideState,
  draft: Draft<'prepare'> | Draft<'startFill'>,
  context: JudgeContext,
): readonly Problem[] {
  const { orderId, despiteOrder, afterwards } = draft.payload;
  const { settings, zone } = context.policy;
  const order = fillAgainst(state, orderId, draft.happenedAt, settings);
  if (order === null || afterwards !== undefined || state.visit?.despiteOrderId === order.orderId) return [];
  if (despiteOrder?.orderId === order.orderId && isOverridden(despiteOrder, context)) return [];
  const words = stayEmptyWords(order, { state: 'empty' }, (at) => formatClock(at, zone));
  const allowed = `no fill, a newer order for it, or ${BY_ROLE}`;
  const message = `By order: ${words}. No fill goes in before.`;
  return [refusal('stay-empty', message, 'payload.despiteOrder', despiteOrder?.reason ?? null, allowed)];
}

/** With fluid inside nobody leaves in silence who was to leave empty: why stands in the record. */
export const leftWardRule: Judge<'leftWard'> = (state, draft, { policy }) => {
  const problems = stayRule(state);
  if (problems.length > 0) return problems;
  const { undrained } = draft.payload;
  const field = 'payload.undrained';
  if (undrained !== undefined && state.cavity.state === 'empty') {
    const message = 'The cavity is empty: the patient leaves with no fluid inside.';
    return [refusal('nothing-inside', message, field, undrained.reason, 'left out')];
  }
  const order = leavesAgainst(state, draft.happenedAt);
  if (order === null || (undrained?.reason ?? '').trim() !== '') return [];
  const words = stayEmptyWords(order, state.cavity, (at) => formatClock(at, policy.zone));
  const message = `By order: ${words}. Not drained: drain first, or say why the patient leaves with fluid inside.`;
  return [refusal('leaves-undrained', message, field, undrained?.reason ?? null, 'a reason in words')];
};
