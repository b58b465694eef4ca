import { mayWrite } from '../access/permissions.ts';
import type { BedsideState } from '../bedside/state.ts';
import type { Draft, EntryKind } from '../record/entry.ts';
import type { Problem } from '../record/problem.ts';
import { HOUR_MS, MINUTE_MS } from '../time/instant.ts';
import { RANGES } from './judge-ranges.ts';
import { RULES } from './judge-rules.ts';
import { type Judge, type JudgeContext, refusal } from './judge-types.ts';
import { isStep } from './steps.ts';

/**
 * Whether an entry may be written onto a state: permission, times, typed ranges, and the rules of its kind (steps, the
 * fill guard, the bag, the prescription). All problems at once; [] = it may be written. Whether `after` is still the head
 * is the record's to say, whose entry is corrected the server's.
 *
 * @param state the state that the author could see; for a late visit the state of that time (`stateBefore`)
 */
export function judge(state: BedsideState, draft: Draft, context: JudgeContext): readonly Problem[] {
  const rule = RULES[draft.kind] as Judge<EntryKind>;
  return [
    ...permissionProblems(draft, context),
    ...timeProblems(state, draft, context),
    ...rangeProblems(draft, context),
    ...rule(state, draft, context),
  ];
}

/** The typed ranges alone: also for the payload of a correction, as an entry of its target's kind. */
export function rangeProblems(
  draft: Pick<Draft, 'kind' | 'payload' | 'happenedAt'>,
  context: Pick<JudgeContext, 'policy'>,
): readonly Problem[] {
  const range = RANGES[draft.kind] as (of: typeof draft, policy: JudgeContext['policy']) => readonly Problem[];
  return range(draft, context.policy);
}

function permissionProblems(draft: Draft, { actor }: JudgeContext): readonly Problem[] {
  if (mayWrite(actor.role, draft.kind, draft.payload)) return [];
  return [
    refusal(
      'not-permitted',
      `The role ${actor.role} does not write entries of the kind ${draft.kind}.`,
      'kind',
      draft.kind,
    ),
  ];
}

/** What is told of the time before the stay: the catheter, the years on dialysis, and a whole history. */
const OF_EARLIER_TIMES: ReadonlySet<EntryKind> = new Set<EntryKind>(['catheter', 'dialysisPeriod', 'imported']);

/**
 * Not ahead of the ward's clock by more than its margin; a step never before the step that it follows; nothing that was
 * seen at the bed long before the stay.
 */
function timeProblems(state: BedsideState, draft: Draft, { now, policy }: JudgeContext): readonly Problem[] {
  const { happenedAt } = draft;
  const { aheadOfClockMinutes } = policy.settings;
  const problem = (code: string, allowed: string, message: string) =>
    refusal(code, message, 'happenedAt', happenedAt, allowed);
  if (!Number.isInteger(happenedAt)) {
    return [
      problem('not-an-instant', 'whole milliseconds', `happenedAt is ${happenedAt}; allowed is a whole number of ms.`),
    ];
  }
  if (happenedAt > now + aheadOfClockMinutes * MINUTE_MS) {
    const allowed = `at most ${aheadOfClockMinutes} min ahead of the ward's clock`;
    return [problem('in-the-future', allowed, `The time lies ahead of the ward's clock; allowed is ${allowed}.`)];
  }
  if (isStep(draft.kind) && state.headAt !== null && happenedAt < state.headAt) {
    return [
      problem('before-the-last-step', 'not before the last step', 'The time lies before the step that came last.'),
    ];
  }
  const admittedAt = state.stay?.admittedAt ?? null;
  if (admittedAt === null || draft.patientId === null || OF_EARLIER_TIMES.has(draft.kind)) return [];
  const { beforeAdmissionHours } = policy.settings;
  if (happenedAt >= admittedAt - beforeAdmissionHours * HOUR_MS) return [];
  const allowed = `from ${beforeAdmissionHours} h before the admission`;
  return [problem('before-the-stay', allowed, `The time lies before the stay; allowed is ${allowed}.`)];
}
