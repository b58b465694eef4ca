import {
  advance,
  type BedsideState,
  canonical,
  type Entry,
  type EpochMs,
  fold,
  isStep,
  judge,
  mayTake,
  type Problem,
  type Step,
} from '@slackwater/domain';
import { problem } from './failures.ts';
import type { Question, Reads } from './question.ts';

/** The place between two recorded visits into which a missed one is entered. */
export type Gap = {
  /** The bedside as it stood before the gap. */
  before: BedsideState;
  /** The steps of the visit that follows. */
  following: readonly Entry[];
};

/**
 * Finds the gap that a whole missed visit goes into: its first step names the last step of an earlier visit and lies
 * before the next one. null: the drafts are no whole visit, or it is no gap that they name.
 */
export async function gapBefore({ drafts, state, patientId, policy }: Question, reads: Reads): Promise<Gap | null> {
  const steps = drafts.filter((draft) => isStep(draft.kind));
  const [first, last] = [steps[0], steps.at(-1)];
  if (first?.kind !== 'prepare' || (last?.kind !== 'close' && last?.kind !== 'stop')) return null;
  if (first.after === state.head || state.headAt === null || last.happenedAt > state.headAt) return null;
  if (drafts.some((draft) => draft.visitId !== first.visitId)) return null;

  const history = await reads.history();
  const recorded = canonical(history).filter((entry) => isStep(entry.kind));
  const place = first.after === null ? -1 : recorded.findIndex((entry) => entry.id === first.after);
  const [previous, next] = [recorded[place], recorded[place + 1]];
  if ((first.after !== null && place === -1) || next === undefined) return null;
  if (previous !== undefined && previous.visitId === next.visitId) return null;
  if (last.happenedAt > next.happenedAt) return null;

  const counting = canonical(history).filter((entry) => entry.happenedAt <= first.happenedAt && entry.id !== next.id);
  return {
    before: fold(patientId, counting, policy).state,
    following: recorded.slice(place + 1).filter((entry) => entry.visitId === next.visitId),
  };
}

/** Judges a missed visit as it would have been judged then, and whether what followed may still follow. */
export function judgeLateVisit(question: Question, gap: Gap): readonly Problem[] {
  const { drafts, author, now, policy, siteId, wardId, deviceAt } = question;
  if (author === null) return [];
  let state = gap.before;
  let seen: Entry[] = [];
  let after: string | null = drafts[0]?.after ?? null;
  for (const [index, draft] of drafts.entries()) {
    if (isStep(draft.kind)) {
      if (draft.after !== after) return [outOfLine(index, draft.after)];
      after = draft.id;
    }
    const problems = judge(state, draft, { now, policy, actor: author });
    if (problems.length > 0) return problems.map((one) => ({ ...one, field: `entries.${index}.${one.field}` }));
    const entry = { ...draft, siteId, wardId, deviceAt, receivedAt: now, author: author.accountId } as Entry;
    const position = (state.newest?.position ?? 0) + 1;
    seen = [...seen, { ...entry, position }];
    const advanced = advance(state, { ...entry, position }, policy);
    if (advanced === 'refold') return [outOfOrder(index, draft.happenedAt)];
    state = advanced.state;
  }
  return gap.following.flatMap((entry) => {
    const verdict = mayTake(state.visit?.state ?? 'none', entry.kind as Step);
    const advanced = advance(state, { ...entry, position: (state.newest?.position ?? 0) + 1 }, policy);
    if (advanced !== 'refold') state = advanced.state;
    return verdict.allowed ? [] : [noLongerFollows(entry)];
  });
}

const outOfLine = (index: number, after: string | null): Problem =>
  problem(
    'after-out-of-line',
    `entries.${index}.after`,
    after,
    'the step before it in the same visit',
    'The steps of a visit entered afterwards must follow one another.',
  );

const outOfOrder = (index: number, happenedAt: EpochMs): Problem =>
  problem(
    'out-of-order',
    `entries.${index}.happenedAt`,
    happenedAt,
    'not before the entry before it',
    'A visit entered afterwards must be in the order of its times.',
  );

const noLongerFollows = (entry: Entry): Problem =>
  problem(
    'gap-not-legal',
    'entries',
    entry.kind,
    'a visit after which the recorded one is still possible',
    `The recorded step "${entry.kind}" could not have followed this visit.`,
  );
