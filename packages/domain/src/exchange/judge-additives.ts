import type { BedsideState } from '../bedside/state.ts';
import { sameAdditives } from '../prescription/additive.ts';
import { orderedAdditivesWords } from '../prescription/additive-words.ts';
import type { Draft } from '../record/entry.ts';
import type { Problem } from '../record/problem.ts';
import { checkHoldsUntil, isCheckedFill } from './additive-check.ts';
import { type Judge, type JudgeContext, refusal } from './judge-types.ts';
import { LOOKED_AT } from './looked-at.ts';
import { wantedBy } from './wanted.ts';

/** What is in the bag is what was ordered. Once this visit has given it, the rest may follow from a plain bag. */
export function additiveProblems(
  state: BedsideState,
  { payload }: Draft<'startFill'> | Draft<'additiveCheckAsked'>,
  named: Parameters<typeof wantedBy>[1],
): readonly Problem[] {
  const wanted = wantedBy(state, named);
  if (wanted === null || sameAdditives(wanted.additives, payload.additives)) return [];
  if (payload.additives.length === 0 && isGiven(state)) return [];
  const said = (additives: typeof payload.additives) => orderedAdditivesWords(additives) || 'nothing';
  const message = `In the bag: ${said(payload.additives)}; ordered is ${said(wanted.additives)}. A change needs an order of the physician.`;
  return [
    refusal('additives-not-ordered', message, 'payload.additives', said(payload.additives), said(wanted.additives)),
  ];
}

const isGiven = ({ cavity, visit }: BedsideState): boolean =>
  cavity.state === 'holding' && cavity.fills.some((fill) => fill.visitId === visit?.id && fill.additives.length > 0);

/** A fill with something added needs a second person's check: of this very fill, agreed, by somebody else, not old. */
export function secondPersonProblems(
  { visit }: BedsideState,
  draft: Draft<'startFill'>,
  { now, policy, actor }: JudgeContext,
): readonly Problem[] {
  const { payload, happenedAt } = draft;
  if (payload.additives.length === 0) return [];
  if (payload.afterwards !== undefined) return namedProblems(payload.afterwards);
  const check = visit?.additiveCheck ?? null;
  const problem = (code: string, message: string, allowed: string) => [
    refusal(code, message, 'payload.additives', orderedAdditivesWords(payload.additives), allowed),
  ];
  const { secondPersonMinutes } = policy.settings;
  const anew = 'a check by a second person, asked anew';
  if (check === null || check.checked === null) {
    const message = 'Something is added to this bag: a second person checks it first.';
    return problem('second-person-needed', message, 'a check by a second person');
  }
  if (!isCheckedFill(check, draft.id, payload)) {
    return problem('second-person-other-bag', 'The second person checked another bag or another fill.', anew);
  }
  const { by, at, agrees, note } = check.checked;
  if (!agrees) return problem('second-person-differs', `The second person found a difference: ${note}`, anew);
  if (by === actor.accountId) {
    return problem('second-person-same', 'Whoever checked it does not start the fill as well.', 'somebody else');
  }
  if (now > checkHoldsUntil(check, secondPersonMinutes)!) {
    const message = `The second person’s check is older than ${secondPersonMinutes} min.`;
    return problem('second-person-too-old', message, anew);
  }
  if (happenedAt < at) {
    const message = 'The fill cannot have started before the second person’s check.';
    return [refusal('second-person-later', message, 'happenedAt', happenedAt, `from ${at}`)];
  }
  return [];
}

function namedProblems({ secondPerson }: { secondPerson: string | null }): readonly Problem[] {
  if (secondPerson !== null && secondPerson.trim() !== '') return [];
  const message = 'Say who checked the bag as the second person.';
  return [refusal('missing', message, 'payload.afterwards.secondPerson', secondPerson, 'a name')];
}

/** Asked at the bed, for the fill that comes next in the visit under way, with what is ordered for it. */
export const additiveCheckAskedRule: Judge<'additiveCheckAsked'> = (state, draft) => {
  const { visit } = state;
  const { payload } = draft;
  if (visit === null || visit.id !== draft.visitId) {
    return [refusal('another-visit', 'No such visit is under way at this bed.', 'visitId', draft.visitId)];
  }
  if (visit.state === 'filling') return [refusal('fill-runs', 'A fill is running: end it first.', 'kind')];
  if (payload.additives.length === 0) {
    return [refusal('nothing-added', 'Nothing is added to this bag: no check is needed.', 'payload.additives', [])];
  }
  return additiveProblems(state, draft, payload);
};

/** By somebody else than who asked, once, having looked at everything, or saying what differs. */
export const additiveCheckedRule: Judge<'additiveChecked'> = (state, draft, { now, policy, actor }) => {
  const { askedId, looked, agrees, note } = draft.payload;
  const check = state.visit?.additiveCheck ?? null;
  if (check === null || check.askedId !== askedId || state.visit?.id !== draft.visitId) {
    const message = 'Nobody waits for this check any more: look at the bedside.';
    return [refusal('nothing-to-check', message, 'payload.askedId', askedId)];
  }
  if (check.askedBy === actor.accountId) {
    return [refusal('second-person-same', 'Whoever asked cannot be the second person.', 'kind', null, 'somebody else')];
  }
  const holdsUntil = checkHoldsUntil(check, policy.settings.secondPersonMinutes);
  if (holdsUntil !== null && now <= holdsUntil) {
    return [refusal('checked-already', 'It was checked already.', 'payload.askedId', askedId)];
  }
  if (draft.happenedAt < check.askedAt) {
    const message = 'The check cannot lie before it was asked for.';
    return [refusal('out-of-order', message, 'happenedAt', draft.happenedAt, `from ${check.askedAt}`)];
  }
  if (!agrees && (note ?? '').trim() === '') {
    return [refusal('missing', 'Say what differs.', 'payload.note', note, 'some words')];
  }
  const missing = agrees ? LOOKED_AT.filter((one) => !looked.includes(one)) : [];
  if (missing.length === 0) return [];
  const message = `Look at it first: ${missing.join(', ')}.`;
  return [refusal('not-looked-at', message, 'payload.looked', looked, LOOKED_AT.join(', '))];
};
