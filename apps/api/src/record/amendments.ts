import {
  canonical,
  type Draft,
  type Entry,
  type EntryKind,
  type EpochMs,
  isStep,
  MINUTE_MS,
  may,
  type Role,
  rangeProblems,
  shiftAt,
  type WardPolicy,
} from '@slackwater/domain';
import { type AppendFailure, problem } from './failures.ts';

type Amendment = Draft<'corrected'> | Draft<'retracted'>;

/** What the tool wrote itself, and what is amended by writing anew, cannot be corrected. */
const FIXED_KINDS: ReadonlySet<EntryKind> = new Set<EntryKind>([
  'alertRaised',
  'additiveCheckAsked',
  'additiveChecked',
  'alertCleared',
  'alertEscalated',
  'retracted',
  'identityChanged',
  'erased',
  'suppliesChanged',
  'settingsChanged',
  'transferredOut',
  'transferredIn',
]);

/**
 * Judges what a correction or a retraction does to the entries before it: whether its target is there and not replaced
 * yet, whether this person may, and whether the steps around it stay in order. null = it may be written.
 * @param entries All entries of the patient, with those of the same batch that come before.
 */
export function judgeAmendment(
  draft: Amendment,
  entries: readonly Entry[],
  context: { now: EpochMs; policy: WardPolicy; actor: { accountId: string; role: Role } },
): AppendFailure | null {
  const target = entries.find((entry) => entry.id === draft.payload.target);
  if (target === undefined) {
    return refused(
      'unknown-target',
      'payload.target',
      draft.payload.target,
      'an entry of this patient',
      'There is no such entry of this patient.',
    );
  }
  if (entries.some((entry) => isAmendment(entry) && entry.payload.target === target.id)) {
    return {
      code: 'taken',
      problems: [
        problem(
          'already-replaced',
          'payload.target',
          target.id,
          'the newest correction',
          'This entry was corrected or retracted already: look at what stands there now.',
        ),
      ],
    };
  }
  if (FIXED_KINDS.has(target.kind) && !(target.kind === 'retracted' && draft.kind === 'retracted')) {
    return refused(
      'cannot-be-amended',
      'payload.target',
      target.kind,
      'an entry that a person made',
      `An entry of the kind "${target.kind}" cannot be corrected or retracted.`,
    );
  }
  if (!mayAmend(target, context)) {
    return refused(
      'not-own',
      'payload.target',
      target.author,
      'your own entry of this shift, or the right to correct any',
      'Only your own entries of this shift can be corrected by you.',
    );
  }
  return judgeSaid(draft, target, entries, context) ?? judgeOrder(draft, target, entries);
}

/** What a correction says is held against the typed ranges of the kind that it corrects, and against the clock. */
function judgeSaid(
  draft: Amendment,
  target: Entry,
  entries: readonly Entry[],
  { now, policy }: { now: EpochMs; policy: WardPolicy },
): AppendFailure | null {
  if (draft.kind === 'retracted') return null;
  const { payload, happenedAt } = draft.payload;
  const latest = now + policy.settings.aheadOfClockMinutes * MINUTE_MS;
  if (happenedAt > latest) {
    return refused(
      'in-the-future',
      'payload.happenedAt',
      happenedAt,
      `to ${latest}`,
      "The time lies ahead of the ward's clock.",
    );
  }
  const said = { kind: rootOf(target, entries).kind, payload, happenedAt } as Pick<
    Draft,
    'kind' | 'payload' | 'happenedAt'
  >;
  const problems = rangeProblems(said, { policy });
  if (problems.length === 0) return null;
  return { code: 'refused', problems: problems.map((one) => ({ ...one, field: `payload.${one.field}` })) };
}

const isAmendment = (entry: Entry): entry is Entry<'corrected'> | Entry<'retracted'> =>
  entry.kind === 'corrected' || entry.kind === 'retracted';

function mayAmend(
  target: Entry,
  { now, policy, actor }: { now: EpochMs; policy: WardPolicy; actor: { accountId: string; role: Role } },
): boolean {
  if (may(actor.role, 'correctAny')) return true;
  const shift = shiftAt(target.receivedAt, policy);
  return may(actor.role, 'correctOwn') && target.author === actor.accountId && shift.from <= now && now < shift.to;
}

/** A step stays between the step it follows and those that follow it; one that others follow cannot be taken away. */
function judgeOrder(draft: Amendment, target: Entry, entries: readonly Entry[]): AppendFailure | null {
  const counting = canonical(entries);
  const root = rootOf(target, entries);
  if (!isStep(root.kind)) return null;
  const previous = counting.find((entry) => entry.id === root.after);
  const next = counting.find((entry) => isStep(entry.kind) && entry.after === root.id);
  if (draft.kind === 'retracted') {
    if (target.kind === 'corrected' || next === undefined || next.visitId !== root.visitId) return null;
    return refused(
      'step-followed',
      'payload.target',
      root.id,
      'the last step of its visit',
      `The step "${next.kind}" follows it: retract that first, or correct this one.`,
    );
  }
  if (previous !== undefined && draft.payload.happenedAt < previous.happenedAt) {
    return refused(
      'before-its-after',
      'payload.happenedAt',
      draft.payload.happenedAt,
      `from ${previous.happenedAt}`,
      'No step may lie before the one it follows.',
    );
  }
  if (next !== undefined && draft.payload.happenedAt > next.happenedAt) {
    return refused(
      'after-its-next',
      'payload.happenedAt',
      draft.payload.happenedAt,
      `to ${next.happenedAt}`,
      'No step may lie after the one that follows it.',
    );
  }
  return null;
}

/** The entry that a chain of corrections is about. */
function rootOf(entry: Entry, entries: readonly Entry[]): Entry {
  if (!isAmendment(entry)) return entry;
  const target = entries.find((other) => other.id === entry.payload.target);
  return target === undefined ? entry : rootOf(target, entries);
}

const refused = (code: string, field: string, value: unknown, allowed: string, message: string): AppendFailure => ({
  code: 'refused',
  problems: [problem(code, field, value, allowed, message)],
});
