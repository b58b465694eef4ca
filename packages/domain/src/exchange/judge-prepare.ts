import type { BedsideState } from '../bedside/state.ts';
import type { Draft } from '../record/entry.ts';
import type { Problem } from '../record/problem.ts';
import { checkBag, stops } from '../solution/bag-check.ts';
import { solutionOf } from '../solution/formulary.ts';
import type { BagInHand } from '../solution/solution.ts';
import { markProblems, notWatchedProblems } from './afterwards.ts';
import { expiredProblems, isOverridden, labelProblems, recallProblems } from './judge-bag.ts';
import { glucoseProblems, pressureProblems } from './judge-first.ts';
import { stayEmptyProblems } from './judge-stay-empty.ts';
import { stepRule } from './judge-step.ts';
import { type Judge, type JudgeContext, refusal } from './judge-types.ts';
import { type Wanted, wantedBy, whyNothingWanted } from './wanted.ts';

const LEAST_IDENTIFIERS = 2;

/** Two identifiers, and the bag's checks beside what is prescribed; a stop holds unless somebody with the right says why. */
export const prepareRule: Judge<'prepare'> = (state, draft, context) => {
  const problems = stepRule(state, draft);
  if (problems.length > 0) return problems;
  return [
    ...markProblems(draft.payload.afterwards, draft, context),
    ...identifierProblems(draft, context),
    ...purposeProblems(state, draft),
    ...(draft.payload.purpose === 'drainOnly' ? [] : stayEmptyProblems(state, draft, context)),
    ...bagProblems(state, draft, context),
  ];
};

function identifierProblems(draft: Draft<'prepare'>, context: JudgeContext): readonly Problem[] {
  const { identifiers } = draft.payload;
  if (identifiers === null) return notWatchedProblems('payload.identifiers', 'the wristband', draft, context);
  if (new Set(identifiers).size >= LEAST_IDENTIFIERS) return [];
  const message = 'Hold two identifiers of the patient against the wristband.';
  return [refusal('identifiers', message, 'payload.identifiers', identifiers, `at least ${LEAST_IDENTIFIERS}`)];
}

function purposeProblems(state: BedsideState, { payload }: Draft<'prepare'>): readonly Problem[] {
  const { purpose, bag } = payload;
  if (purpose === 'drainOnly') return [];
  const problems: Problem[] = [];
  if (purpose === 'fillOnly' && state.cavity.state !== 'empty') {
    const message = 'Fill only starts from an empty cavity: this one is not known to be empty.';
    problems.push(refusal('not-empty', message, 'payload.purpose', purpose, 'exchange, drainOnly'));
  }
  if (bag === null) problems.push(refusal('missing', 'A fill needs a bag: check one first.', 'payload.bag'));
  if (state.hold !== null) {
    const message = 'Fills are on hold: drain what is inside as drain only.';
    problems.push(refusal('on-hold', message, 'payload.purpose', purpose, 'drainOnly'));
  }
  return problems;
}

function bagProblems(state: BedsideState, draft: Draft<'prepare'>, context: JudgeContext): readonly Problem[] {
  const { bag, afterwards } = draft.payload;
  if (bag === null) return [];
  const wanted = wantedBy(state, draft.payload);
  return [
    ...(wanted === null ? [refusal('not-prescribed', whyNothingWanted(state, draft.payload), 'payload.itemId')] : []),
    ...labelProblems(bag, draft, context),
    ...conditionProblems(bag, draft, context),
    ...stopProblems(bag, wanted, draft, context),
    ...pressureProblems(state, draft, bag.solutionId, context),
    ...(afterwards === undefined ? glucoseProblems(state, draft, context) : []),
  ];
}

/**
 * Expired, recalled, of another solution, too small: a stop. Somebody with the role goes on with a reason; a nurse takes
 * another bag or an order by telephone, which then says what is wanted. What was given already is told as it was, and
 * by whose word it was another fluid than prescribed.
 */
function stopProblems(
  bag: BagInHand,
  wanted: Wanted | null,
  draft: Draft<'prepare'>,
  context: JudgeContext,
): readonly Problem[] {
  const { override, afterwards } = draft.payload;
  if (isOverridden(override, context)) return [];
  const mismatches = wanted === null ? [] : mismatchProblems(bag, wanted, draft, context);
  if (afterwards === undefined) {
    return [...expiredProblems(bag, draft, context), ...recallProblems(bag, draft, context), ...mismatches];
  }
  const isSaid = override !== null && override.reason.trim() !== '' && (override.physician ?? '').trim() !== '';
  return isSaid ? [] : mismatches;
}

function mismatchProblems(
  bag: BagInHand,
  wanted: Wanted,
  { happenedAt }: Draft<'prepare'>,
  { policy }: JudgeContext,
): readonly Problem[] {
  return checkBag(bag, wanted, policy, happenedAt)
    .filter((row) => stops(row) && (row.check === 'solution' || row.check === 'volume'))
    .map(({ check, inHand, wanted: prescribed, say }) => {
      const message = `The bag's ${check} is ${inHand}; prescribed is ${prescribed}. ${say ?? ''}`.trim();
      return refusal(`bag-${check}`, message, 'payload.bag', inHand, prescribed ?? '');
    });
}

/** What eye and hand say about the bag: with a leak, particles, or a broken seal it is not used. */
function conditionProblems(bag: BagInHand, draft: Draft<'prepare'>, context: JudgeContext): readonly Problem[] {
  const { bagChecks: checks } = draft.payload;
  if (checks === null) return [refusal('missing', 'Say what eye and hand found on the bag.', 'payload.bagChecks')];
  const chambers = solutionOf(context.policy.formulary, bag.solutionId)?.chambers ?? 1;
  const unless = (field: keyof typeof checks, what: string, message: string): readonly Problem[] => {
    const path = `payload.bagChecks.${field}`;
    if (checks[field] === null) return notWatchedProblems(path, what, draft, context);
    return checks[field] ? [] : [refusal('bag-unfit', message, path, false, 'true')];
  };
  return [
    ...unless('noLeak', 'the bag', 'The bag leaks: take another one.'),
    ...unless('clear', 'the fluid', 'The fluid is not clear: take another bag.'),
    ...unless('sealWhole', 'the outlet seal', 'The outlet seal is broken: take another bag.'),
    ...(checks.warmed === null ? notWatchedProblems('payload.bagChecks.warmed', 'the bag', draft, context) : []),
    ...(chambers === 1 ? [] : unless('mixed', 'the chambers', 'Mix the chambers of the bag first.')),
  ];
}
