import type { Conflict } from '@slackwater/contract';
import type { BedsideState, Draft, Step } from '@slackwater/domain';
import { STEPS } from '@slackwater/domain/exchange/steps';
import { mayTake } from '@slackwater/domain/exchange/table';
import { act, composeBatch } from '../model/batch.ts';

const isStepKind = (kind: string): kind is Step => (STEPS as readonly string[]).includes(kind);

/** My step that collided with theirs: the first of the batch. */
export const myStep = (drafts: readonly Draft[]): Draft | null =>
  drafts.find((draft) => isStepKind(draft.kind)) ?? null;

/** What of my batch does not collide: observations commute, they are kept whichever step counts. */
export const myObservations = (drafts: readonly Draft[]): readonly Draft[] =>
  drafts.filter((draft) => !isStepKind(draft.kind));

/** The same batch behind what the other one wrote: both stand. Ids stay, so that sending twice is once. */
export const afterTheirs = (drafts: readonly Draft[], head: string | null): readonly Draft[] => {
  let after = head;
  return drafts.map((draft) => {
    if (!isStepKind(draft.kind)) return draft;
    const next = { ...draft, after } as Draft;
    after = draft.id;
    return next;
  });
};

/** My words in the place of theirs, with the reason; theirs stays readable. My observations go along. */
export const minePutInPlace = (
  drafts: readonly Draft[],
  theirs: Conflict,
  reason: string,
  patientId: string,
  now: number,
): readonly Draft[] => {
  const mine = myStep(drafts);
  if (!mine) return myObservations(drafts);
  const payload = mine.payload as Readonly<Record<string, unknown>>;
  const correction = act('corrected', { target: theirs.entryId, reason, payload, happenedAt: mine.happenedAt }, now);
  return [...myObservations(drafts), ...composeBatch([correction], { patientId, visitId: mine.visitId, head: null })];
};

/** Why my batch cannot simply stand behind theirs; null when it can. */
export const whyNotBoth = (drafts: readonly Draft[], state: BedsideState): string | null => {
  const mine = myStep(drafts);
  if (!mine || !isStepKind(mine.kind)) return null;
  const rule = mayTake(state.visit?.state ?? 'none', mine.kind);
  return rule.allowed ? null : rule.why;
};
