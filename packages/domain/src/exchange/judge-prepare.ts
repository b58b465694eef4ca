import { may } from '../access/permissions.ts';
import type { BedsideState } from '../bedside/state.ts';
import type { Draft, Payloads } from '../record/entry.ts';
import type { Problem } from '../record/problem.ts';
import { type BagRow, checkBag, stops } from '../solution/bag-check.ts';
import { solutionOf } from '../solution/formulary.ts';
import type { BagInHand } from '../solution/solution.ts';
import { dateAt } from '../time/zone.ts';
import { labelProblems, recallProblems } from './judge-bag.ts';
import { glucoseProblems, pressureProblems } from './judge-first.ts';
import { stepRule } from './judge-step.ts';
import { type Judge, type JudgeContext, refusal } from './judge-types.ts';
import { wantedBy, whyNothingWanted } from './wanted.ts';

const LEAST_IDENTIFIERS = 2;

/** Two identifiers, and the bag's checks beside what is prescribed; a mismatch stops unless somebody with the right says why. */
export const prepareRule: Judge<'prepare'> = (state, draft, context) => {
  const problems = stepRule(state, draft);
  if (problems.length > 0) return problems;
  return [...identifierProblems(draft), ...purposeProblems(state, draft), ...bagProblems(state, draft, context)];
};

function identifierProblems({ payload }: Draft<'prepare'>): readonly Problem[] {
  const { identifiers } = payload;
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
  const { bag, bagChecks, override } = draft.payload;
  if (bag === null) return [];
  const wanted = wantedBy(state, draft.payload);
  const rows = wanted === null ? [] : checkBag(bag, wanted, context.policy, draft.happenedAt);
  const mismatches = rows.filter((row) => stops(row) && (row.check === 'solution' || row.check === 'volume'));
  return [
    ...(wanted === null ? [refusal('not-prescribed', whyNothingWanted(state, draft.payload), 'payload.itemId')] : []),
    ...labelProblems(bag, draft, context),
    ...expiredProblems(bag, draft, context),
    ...recallProblems(bag, draft, override, context),
    ...conditionProblems(bag, bagChecks, context),
    ...(mismatches.length > 0 ? mismatchProblems(mismatches, override, context) : []),
    ...pressureProblems(state, draft, bag.solutionId, context),
    ...glucoseProblems(state, draft, context),
  ];
}

/** An expired bag is never used, by nobody's word. */
export function expiredProblems(
  bag: BagInHand,
  draft: Pick<Draft, 'happenedAt'>,
  { policy }: JudgeContext,
): readonly Problem[] {
  const today = dateAt(draft.happenedAt, policy.zone);
  if (bag.expiresOn === null || bag.expiresOn >= today) return [];
  const message = `The bag expired on ${bag.expiresOn}: take another one.`;
  return [refusal('bag-expired', message, 'payload.bag.expiresOn', bag.expiresOn, `${today} or later`)];
}

/** What eye and hand say about the bag: with a leak, particles, or a broken seal it is not used. */
function conditionProblems(
  bag: BagInHand,
  checks: Payloads['prepare']['bagChecks'],
  { policy }: JudgeContext,
): readonly Problem[] {
  if (checks === null) return [refusal('missing', 'Say what eye and hand found on the bag.', 'payload.bagChecks')];
  const bad = (field: string, message: string) =>
    refusal('bag-unfit', message, `payload.bagChecks.${field}`, false, 'true');
  const chambers = solutionOf(policy.formulary, bag.solutionId)?.chambers ?? 1;
  return [
    ...(checks.noLeak ? [] : [bad('noLeak', 'The bag leaks: take another one.')]),
    ...(checks.clear ? [] : [bad('clear', 'The fluid is not clear: take another bag.')]),
    ...(checks.sealWhole ? [] : [bad('sealWhole', 'The outlet seal is broken: take another bag.')]),
    ...(chambers === 1 || checks.mixed === true ? [] : [bad('mixed', 'Mix the chambers of the bag first.')]),
  ];
}

/** A telephone order that was read back, or the role's own reasoned override. */
function mismatchProblems(
  rows: readonly BagRow[],
  override: Payloads['prepare']['override'],
  { actor }: JudgeContext,
): readonly Problem[] {
  if (override !== null && override.reason.trim() !== '') {
    if (may(actor.role, 'overrideGuard')) return [];
    if (override.physician !== null && may(actor.role, 'telephoneOrder')) return [];
  }
  return rows.map((row) => {
    const message = `The bag's ${row.check} is ${row.inHand}; prescribed is ${row.wanted}. ${row.say ?? ''}`.trim();
    return refusal(`bag-${row.check}`, message, 'payload.bag', row.inHand, row.wanted ?? '');
  });
}
