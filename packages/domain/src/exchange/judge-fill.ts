import { may } from '../access/permissions.ts';
import { holdsUndrained } from '../bedside/fluid.ts';
import type { BedsideState } from '../bedside/state.ts';
import { guardFill, undrainedMl } from '../cavity/guard.ts';
import type { Draft } from '../record/entry.ts';
import type { Problem } from '../record/problem.ts';
import { markProblems, notWatchedProblems } from './afterwards.ts';
import { additiveProblems, secondPersonProblems } from './judge-additives.ts';
import { expiredProblems, isOverridden, isSameBag, labelProblems, recallProblems } from './judge-bag.ts';
import { pressureProblems } from './judge-first.ts';
import { stayEmptyProblems } from './judge-stay-empty.ts';
import { stepRule } from './judge-step.ts';
import { type Judge, type JudgeContext, refusal } from './judge-types.ts';
import { wantedBy, whyNothingWanted } from './wanted.ts';

/** No fill on top of a dwell that nobody drained, none that is not prescribed, none against the guard without the right. */
export const startFillRule: Judge<'startFill'> = (state, draft, context) => {
  const problems = stepRule(state, draft);
  if (problems.length > 0) return problems;
  return [
    ...markProblems(draft.payload.afterwards, draft, context),
    ...purposeProblems(state),
    ...undrainedProblems(state),
    ...stayEmptyProblems(state, draft, context),
    ...prescribedProblems(state, draft),
    ...bagProblems(state, draft),
    ...sealProblems(draft, context),
    ...labelProblems(draft.payload.bag, draft, context),
    ...(draft.payload.afterwards === undefined
      ? [...stoppedSinceProblems(state, draft, context), ...guardProblems(state, draft, context)]
      : []),
    ...additiveProblems(state, draft, draft.payload),
    ...secondPersonProblems(state, draft, context),
    ...pressureProblems(state, draft, draft.payload.bag.solutionId, context),
  ];
};

function purposeProblems({ visit, hold }: BedsideState): readonly Problem[] {
  if (visit?.purpose === 'drainOnly') {
    return [refusal('drain-only', 'This visit is to drain only: close it and prepare an exchange.', 'kind')];
  }
  return hold === null ? [] : [refusal('on-hold', `Fills are on hold: ${hold.reason}.`, 'kind')];
}

/** A fill of this same visit may be resumed or joined by a second bag; an older dwell is drained first. */
export function undrainedProblems(state: BedsideState): readonly Problem[] {
  const { cavity, visit } = state;
  if (cavity.state !== 'holding' || !holdsUndrained(state)) return [];
  if (cavity.fills.every((fill) => fill.visitId === visit?.id)) return [];
  return [refusal('drain-first', 'Fluid is inside that nobody has drained: drain first.', 'kind')];
}

/** With what this visit has already filled, no more than is prescribed for the dwell. */
function prescribedProblems(state: BedsideState, { payload }: Draft<'startFill'>): readonly Problem[] {
  const wanted = wantedBy(state, payload);
  if (wanted === null) {
    return [refusal('not-prescribed', whyNothingWanted(state, payload), 'payload.itemId', payload.itemId)];
  }
  const { prescribedMl } = payload;
  const restMl = wanted.fillMl - (undrainedMl(state) ?? 0);
  if (prescribedMl <= restMl) return [];
  const message = `prescribedMl is ${prescribedMl}; of ${wanted.fillMl} mL prescribed ${Math.max(0, restMl)} mL are left.`;
  return [refusal('more-than-prescribed', message, 'payload.prescribedMl', prescribedMl, `1 to ${restMl} mL`)];
}

/** The solution is the one that was checked, or the one that is prescribed (a second bag). */
function bagProblems(state: BedsideState, { payload }: Draft<'startFill'>): readonly Problem[] {
  const { bag } = payload;
  const allowed = [state.visit?.bag?.solutionId, wantedBy(state, payload)?.solutionId];
  if (allowed.includes(bag.solutionId)) return [];
  const message = `The bag's solution is ${bag.solutionId}: neither the bag that was checked nor what is prescribed.`;
  return [refusal('bag-solution', message, 'payload.bag.solutionId', bag.solutionId)];
}

/** Seal, leak and flush are seen before it runs; afterwards they may be what nobody watched. */
function sealProblems(draft: Draft<'startFill'>, context: JudgeContext): readonly Problem[] {
  const { sealBroken, noLeak, flushMl } = draft.payload;
  const notWatched = (field: string, what: string) => notWatchedProblems(`payload.${field}`, what, draft, context);
  const problems: Problem[] = [];
  if (sealBroken === null) problems.push(...notWatched('sealBroken', 'the outlet seal'));
  else if (!sealBroken)
    problems.push(refusal('seal', 'Break the outlet seal first.', 'payload.sealBroken', false, 'true'));
  if (noLeak === null) problems.push(...notWatched('noLeak', 'the bag'));
  else if (!noLeak) problems.push(refusal('leak', 'A leak: clamp, do not fill.', 'payload.noLeak', false, 'true'));
  if (flushMl === null) problems.push(...notWatched('flushMl', 'the flush'));
  return problems;
}

/**
 * The bag that was checked was let through with all that stood against it; another one, or a recall since, is judged
 * now. Going on with it takes the role and a reason, as at the preparation.
 */
function stoppedSinceProblems(
  { visit }: BedsideState,
  draft: Draft<'startFill'>,
  context: JudgeContext,
): readonly Problem[] {
  const { bag, bagOverride } = draft.payload;
  if (isOverridden(bagOverride ?? null, context)) return [];
  const against = (when: Pick<Draft, 'happenedAt'>) => [
    ...expiredProblems(bag, when, context),
    ...recallProblems(bag, when, context),
  ];
  const problems = against(draft);
  if (problems.length === 0 || visit === null || !isSameBag(visit.bag, bag)) return problems;
  const letThrough = new Set(against({ happenedAt: visit.startedAt }).map(({ code }) => code));
  return problems.filter(({ code }) => !letThrough.has(code));
}

function guardProblems(
  state: BedsideState,
  draft: Draft<'startFill'>,
  { actor, policy }: JudgeContext,
): readonly Problem[] {
  const { guardOverride } = draft.payload;
  const wanted = wantedBy(state, draft.payload);
  if (wanted === null) return [];
  const guard = guardFill(state, wanted.fillMl, policy);
  if (guard.offer !== 'no') return [];
  const field = 'payload.guardOverride';
  if (guardOverride === null || guardOverride.reason.trim() === '') {
    return [refusal('guard', guard.why, field, null, 'an override by role with a reason')];
  }
  if (may(actor.role, 'overrideGuard')) return [];
  const message = `The role ${actor.role} cannot override the guard. ${guard.why}`;
  return [refusal('guard-role', message, field, guardOverride.reason, 'charge nurse or nephrologist')];
}
