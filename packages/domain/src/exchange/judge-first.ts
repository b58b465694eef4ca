import { may } from '../access/permissions.ts';
import type { BedsideState } from '../bedside/state.ts';
import { icodextrinCaution } from '../caution/icodextrin.ts';
import type { Draft } from '../record/entry.ts';
import type { Problem } from '../record/problem.ts';
import { minutesBetween } from '../time/instant.ts';
import { formatDate } from '../words/numbers.ts';
import { AFTERWARDS_MINUTES, isAfterwards } from './afterwards.ts';
import { type Judge, type JudgeContext, refusal } from './judge-types.ts';
import { pressureQuestion } from './pressure-first.ts';

/** Somebody was called and said something; or one goes on by right of role, with a reason; or it is told afterwards. */
export const calledFirstRule: Judge<'calledFirst'> = (_state, draft, context) => {
  const { by, whom, words } = draft.payload;
  if (draft.visitId === null) {
    return [refusal('missing', 'The answer belongs to a visit: visitId is missing.', 'visitId')];
  }
  if (words.trim() === '')
    return [refusal('missing', 'Say what was said or why.', 'payload.words', words, 'some words')];
  if (by === 'told') {
    if (whom !== null && whom.trim() !== '') return [];
    return [refusal('missing', 'Say who was called.', 'payload.whom', whom, 'a name')];
  }
  if (by === 'override') {
    const { role } = context.actor;
    if (may(role, 'overrideGuard')) return [];
    const message = `The role ${role} cannot go on without calling.`;
    return [refusal('pressure-role', message, 'payload.by', by, 'told; override: charge nurse or nephrologist')];
  }
  // What was given already: nobody can be called first any more.
  if (isAfterwards(draft, context)) return [];
  const allowed = `told, override; afterwards only ${AFTERWARDS_MINUTES} min and more after it happened`;
  return [refusal('not-afterwards', 'It happens now: call first.', 'payload.by', by, allowed)];
};

/** A strong bag is neither prepared nor filled against the blood pressure, unless somebody was called for this visit. */
export function pressureProblems(
  state: BedsideState,
  draft: Pick<Draft<'prepare' | 'startFill'>, 'happenedAt' | 'visitId'>,
  solutionId: string,
  { policy }: JudgeContext,
): readonly Problem[] {
  const question = pressureQuestion(state, solutionId, draft.happenedAt, draft.visitId, policy);
  if (question === null) return [];
  const code = question.about === 'pressureTooLow' ? 'pressure-too-low' : 'pressure-too-old';
  const allowed = 'a blood pressure within the limits, or who was called (calledFirst) for this visit';
  return [refusal(code, `A strong bag: call first. ${question.why}`, 'payload.bag.solutionId', solutionId, allowed)];
}

/** With diabetes, where the ward has set so: no bag without a blood glucose of late. */
export function glucoseProblems(
  { cautions, glucose }: BedsideState,
  { happenedAt }: Pick<Draft<'prepare'>, 'happenedAt'>,
  { policy }: JudgeContext,
): readonly Problem[] {
  const { glucoseBlockMinutes } = policy.settings;
  if (glucoseBlockMinutes === 0 || cautions.diabetes?.present !== true) return [];
  if (glucose !== null && minutesBetween(glucose.at, happenedAt) <= glucoseBlockMinutes) return [];
  const message = 'Diabetes: measure the blood glucose before the exchange.';
  const allowed = `a blood glucose of the last ${glucoseBlockMinutes} min`;
  return [refusal('glucose-first', message, 'payload.bag', glucose?.at ?? null, allowed)];
}

/** While the icodextrin caution stands, only a glucose-specific meter gives a figure that may be acted on. */
export const glucoseRule: Judge<'glucose'> = (state, { payload, happenedAt }, { policy }) => {
  if (payload.meter === 'glucoseSpecific') return [];
  const caution = icodextrinCaution(state, happenedAt, policy);
  if (caution === null) return [];
  const until =
    caution.until === null ? 'while it is inside and after' : `until ${formatDate(caution.until, policy.zone)}`;
  const message = `Icodextrin makes other meters read falsely high, ${until}: measure with a glucose-specific meter.`;
  return [refusal('meter-falsely-high', message, 'payload.meter', payload.meter, 'glucoseSpecific')];
};
