import { visitInReach } from '../bedside/apply-drain.ts';
import type { BedsideState } from '../bedside/state.ts';
import { KEEP_THE_BAG } from '../effluent/effluent.ts';
import type { Draft } from '../record/entry.ts';
import type { Problem } from '../record/problem.ts';
import { notWatchedProblems } from './afterwards.ts';
import { type Judge, refusal } from './judge-types.ts';

/** An observation of a visit names it; of an older visit than the state holds, the fold finds the place. */
function visitObservationRule(_state: BedsideState, { visitId }: Pick<Draft, 'visitId'>): readonly Problem[] {
  return visitId === null
    ? [refusal('missing', 'The observation belongs to a visit: visitId is missing.', 'visitId')]
    : [];
}

/** The drain that is spoken of has begun. */
export function drainObservationRule(
  state: BedsideState,
  draft: Draft<'appearance' | 'measure' | 'flowMoves' | 'flowEffect' | 'bagFate'>,
): readonly Problem[] {
  const missing = visitObservationRule(state, draft);
  if (missing.length > 0) return missing;
  const visit = visitInReach(state, draft.visitId);
  if (visit === null || draft.payload.drain <= visit.drains.length) return [];
  const { drain } = draft.payload;
  const allowed = visit.drains.length === 0 ? 'no drain yet' : `1 to ${visit.drains.length}`;
  return [refusal('no-such-drain', `The visit has no drain ${drain}.`, 'payload.drain', drain, allowed)];
}

/** Looked at while it runs or hangs there; that nobody watched it is said afterwards only. */
export const appearanceRule: Judge<'appearance'> = (state, draft, context) => [
  ...drainObservationRule(state, draft),
  ...(draft.payload.appearance === null
    ? notWatchedProblems('payload.appearance', 'the effluent', draft, context)
    : []),
];

export const comfortRule: Judge<'comfort'> = (state, draft, context) => [
  ...visitObservationRule(state, draft),
  ...(draft.payload.comfort === null ? notWatchedProblems('payload.comfort', 'the patient', draft, context) : []),
];

/** A cloudy bag, or one of bowel or bile, is kept and its sample sent before it may be thrown away. */
export const bagFateRule: Judge<'bagFate'> = (state, draft) => {
  const problems = drainObservationRule(state, draft);
  if (problems.length > 0) return problems;
  const { drain, fate } = draft.payload;
  const visit = visitInReach(state, draft.visitId);
  const seen = visit?.drains[drain - 1]?.appearance.filter((one) => KEEP_THE_BAG.includes(one)) ?? [];
  if (fate !== 'discarded' || seen.length === 0) return [];
  const drainId = visit?.drains[drain - 1]?.entryId;
  const sampled =
    visit?.bagFates.some((one) => one.drain === drain && one.fate === 'kept' && one.sampleSent) ||
    state.workUps.some(({ samples }) => samples.some((sample) => sample.drainId === drainId));
  if (sampled) return [];
  const message = `The effluent was ${seen.join(', ')}: keep the bag, say where, and that the sample went.`;
  return [refusal('keep-cloudy-bag', message, 'payload.fate', fate, 'kept')];
};
