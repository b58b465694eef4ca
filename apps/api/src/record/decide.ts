import {
  type AlertNotice,
  advance,
  type BedsideState,
  type Draft,
  type Dwell,
  type Entry,
  type EpochMs,
  fold,
  illegalEntries,
  isStep,
  judge,
  nextChangeAt,
  noticesOf,
  type Problem,
  settle,
} from '@slackwater/domain';
import { judgeAmendment } from './amendments.ts';
import { uuidOfContent } from './entry-id.ts';
import { type AppendFailure, problem } from './failures.ts';
import { gapBefore, judgeLateVisit } from './late-visit.ts';
import type { Question, Reads } from './question.ts';
import { allRows, changedRows, isStanding } from './rows/folded-rows.ts';
import type { FoldedRows } from './rows/tables.ts';
import { TO_BE_FOLDED_ANEW } from './write.ts';

/** What is to be written. `position` of an entry is its place among the patient's own. */
export type Decision = {
  entries: readonly Entry[];
  state: BedsideState;
  nextChangeAt: EpochMs | null;
  rows: FoldedRows;
  /** A refold: rows that are not among `rows` fall away. */
  replace: boolean;
  /** What the entries have to say outside the ward. */
  notices: readonly AlertNotice[];
};

export type Decided = { decision: Decision } | { failure: AppendFailure };

/** The tool speaks again when its own entries make a new condition true; more rounds than this would be a circle. */
const MOST_ROUNDS = 4;

/** Judges the drafts one after another, folds what is written, and adds what the tool itself must say to it. */
export async function decide(question: Question, reads: Reads): Promise<Decided> {
  const folding = new Folding(question, reads);
  const gap = await gapBefore(question, reads);
  if (gap !== null) {
    const problems = judgeLateVisit(question, gap);
    if (problems.length > 0) return { failure: { code: 'refused', problems } };
    for (const draft of question.drafts) folding.mustRefold(folding.entryOf(draft));
  } else {
    for (const [index, draft] of question.drafts.entries()) {
      const failure = await judgeNext(question, folding, draft, index);
      if (failure !== null) return { failure };
      await folding.add(folding.entryOf(draft));
    }
  }
  const displaced = await folding.displaced();
  if (displaced.length > 0) return { failure: { code: 'refused', problems: displaced } };
  await folding.settle();
  return { decision: await folding.decision() };
}

async function judgeNext(
  question: Question,
  folding: Folding,
  draft: Draft,
  index: number,
): Promise<AppendFailure | null> {
  const { author, now, policy } = question;
  const state = await folding.state();
  if (isStep(draft.kind) && draft.after !== state.head) {
    return draft.after === null ? { code: 'conflict', headMoved: null } : { code: 'unknownAfter', after: draft.after };
  }
  if (author === null) return null;
  if (draft.kind === 'corrected' || draft.kind === 'retracted') {
    const failure = judgeAmendment(draft, await folding.all(), { now, policy, actor: author });
    if (failure !== null) return failure;
  }
  const problems = judge(state, draft, { now, policy, actor: author });
  return problems.length === 0 ? null : { code: 'refused', problems: problems.map((one) => inBatch(one, index)) };
}

/** Names the draft that a problem is about. */
const inBatch = (problem: Problem, index: number): Problem => ({
  ...problem,
  field: `entries.${index}.${problem.field}`,
});

const displacedBy = (entryId: string, { message }: Problem): Problem =>
  problem(
    'displaces-a-step',
    'entries',
    entryId,
    'a time and content with which all that is recorded stays possible',
    `The entry ${entryId} could not stand where it stands any more. ${message}`,
  );

/** The state as entries are added to it: by the quick path while that lasts, else by folding everything. */
class Folding {
  readonly #question: Question;
  readonly #reads: Reads;
  readonly #added: Entry[] = [];
  readonly #dwells = new Map<string, Dwell>();
  #state: BedsideState;
  #refolded: boolean;
  #stale: boolean;

  constructor(question: Question, reads: Reads) {
    this.#question = question;
    this.#reads = reads;
    this.#state = question.state;
    this.#refolded = question.isStale;
    this.#stale = question.isStale;
  }

  entryOf(draft: Draft, author: string | null = this.#question.author?.accountId ?? null): Entry {
    const { siteId, wardId, version, deviceAt, now } = this.#question;
    return {
      ...draft,
      siteId,
      wardId: draft.kind === 'transferredIn' ? this.#goingTo(wardId) : wardId,
      deviceAt: author === null ? null : deviceAt,
      receivedAt: now,
      author,
      position: version + this.#added.length + 1,
    } as Entry;
  }

  /** A transfer writes one entry in each ward: the second goes where the first sent the patient. */
  #goingTo(wardId: string): string {
    const out = this.#added.find((entry) => entry.kind === 'transferredOut');
    return out?.kind === 'transferredOut' ? out.payload.toWardId : wardId;
  }

  mustRefold(entry: Entry): void {
    this.#added.push(entry);
    this.#refolded = true;
    this.#stale = true;
  }

  async add(entry: Entry): Promise<void> {
    const advanced = this.#refolded ? 'refold' : advance(this.#state, entry, this.#question.policy);
    if (advanced === 'refold') {
      this.mustRefold(entry);
      return;
    }
    this.#added.push(entry);
    this.#state = advanced.state;
    for (const dwell of advanced.dwells) this.#dwells.set(dwell.id, dwell);
  }

  async state(): Promise<BedsideState> {
    if (this.#stale) await this.#refold();
    return this.#state;
  }

  async all(): Promise<readonly Entry[]> {
    return [...(await this.#reads.history()), ...this.#added];
  }

  /**
   * What could stand where it stands before this batch, and cannot after it: steps that would come to lie before their
   * admission, say. Only a refold can do that. The fold would pass over such steps, and nobody would see them any more.
   */
  async displaced(): Promise<readonly Problem[]> {
    if (!this.#refolded) return [];
    const { patientId, policy } = this.#question;
    const before = illegalEntries(patientId, await this.#reads.history(), policy);
    const known = new Set(before.map(({ entryId }) => entryId));
    const after = illegalEntries(patientId, await this.all(), policy);
    return after
      .filter(({ entryId }) => !known.has(entryId))
      .flatMap(({ entryId, problems }) => problems.map((one) => displacedBy(entryId, one)));
  }

  async #refold(): Promise<void> {
    const { patientId, policy } = this.#question;
    const folded = fold(patientId, await this.all(), policy);
    this.#state = folded.state;
    this.#dwells.clear();
    for (const dwell of folded.dwells) this.#dwells.set(dwell.id, dwell);
    this.#stale = false;
  }

  /** Adds the tool's own entries: alerts that rise, fall or move on at this instant. */
  async settle(): Promise<void> {
    const { now, policy, patientId, siteId } = this.#question;
    for (let round = 0; round < MOST_ROUNDS; round += 1) {
      const state = await this.state();
      const drafts = settle(state, now, policy);
      if (drafts.length === 0) return;
      for (const draft of drafts) {
        const place = this.#question.version + this.#added.length + 1;
        await this.add(
          this.entryOf(
            {
              ...draft,
              id: uuidOfContent(JSON.stringify([siteId, patientId, place, draft])),
              format: 1,
              patientId,
              visitId: null,
              happenedAt: Math.max(now, this.#state.newest?.happenedAt ?? now),
              after: null,
            } as Draft,
            null,
          ),
        );
      }
    }
  }

  async decision(): Promise<Decision> {
    const { siteId, patientId, wardId, policy, now } = this.#question;
    const state = await this.state();
    // Decided under this ward's settings; the ward where the patient lies has its own, and the alarms take it at once.
    const liesElsewhere = state.stay !== null && state.stay.wardId !== wardId;
    const nextAt = liesElsewhere ? now : nextChangeAt(state, now, policy);
    const dwells = [...this.#dwells.values()];
    const of = { siteId, patientId, wardId, policy };
    const rows = this.#refolded
      ? allRows(of, await this.all(), dwells)
      : changedRows(of, this.#added, await this.#standingEntries(), this.#question.state, state, dwells);
    return {
      entries: this.#added,
      state: liesElsewhere ? { ...state, foldVersion: TO_BE_FOLDED_ANEW } : state,
      nextChangeAt: state.stay === null ? null : nextAt,
      rows,
      replace: this.#refolded,
      notices: noticesOf(this.#question.state, this.#added, state),
    };
  }

  async #standingEntries(): Promise<readonly Entry[] | null> {
    const standing = this.#added.filter((entry) => isStanding(entry.kind));
    return standing.length === 0 ? null : [...(await this.#reads.standing()), ...standing];
  }
}
