import type { EntryKind, EpochMs, Problem } from '@slackwater/domain';

/** Who moved the head of a patient's steps while the author still saw an older one. */
export type HeadMoved = {
  entryId: string;
  kind: EntryKind;
  authorName: string | null;
  happenedAt: EpochMs;
  receivedAt: EpochMs;
};

/** Why a batch was not written. Nothing of it was. */
export type AppendFailure =
  /** Another step came first: nothing is merged, the author decides again. null: the author saw a step of nobody. */
  | { code: 'conflict'; headMoved: HeadMoved | null }
  /** The id stands for something else; what, is not told. */
  | { code: 'idTaken'; entryId: string }
  /** A bed that is occupied, an entry that was replaced already, a settings version that exists. */
  | { code: 'taken'; problems: readonly Problem[] }
  /** The step before has not arrived: send again later. */
  | { code: 'unknownAfter'; after: string }
  | { code: 'refused'; problems: readonly Problem[] }
  /** No such patient or ward. */
  | { code: 'notFound' }
  /** Lost the race too often in a row: send again shortly. */
  | { code: 'busy' };

/** One refusal of the record's own, in the domain's form. */
export const problem = (code: string, field: string, value: unknown, allowed: string, message: string): Problem => ({
  code,
  field,
  value,
  allowed,
  message,
});
