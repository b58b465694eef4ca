import type { KeptBatch } from '@slackwater/contract';
import type { BedsideState, Draft, EpochMs } from '@slackwater/domain';
import { isStep } from '@slackwater/domain/exchange/steps';

/** What one author wrote at one patient's bed and was refused: decided about together. */
export type KeptGroup = {
  key: string;
  batches: readonly KeptBatch[];
  author: KeptBatch['author'];
  patient: KeptBatch['patient'];
  patientId: string | null;
  wardId: string;
  entries: readonly Draft[];
};

/** Batches by author and patient, oldest first. */
export const grouped = (batches: readonly KeptBatch[]): readonly KeptGroup[] =>
  [...Map.groupBy(batches, ({ author, patientId, wardId }) => `${author.id} ${patientId} ${wardId}`)].flatMap(
    ([key, all]) => {
      const [first] = all;
      if (!first) return [];
      const { author, patient, patientId, wardId } = first;
      return [
        { key, batches: all, author, patient, patientId, wardId, entries: all.flatMap(({ entries }) => entries) },
      ];
    },
  );

/** What a person may change of one entry before it is sent again: when it was, and whether it goes at all. */
export type Amended = {
  leftOut: boolean;
  /** null: as it was written. */
  happenedAt: EpochMs | null;
  /** A time stands typed that cannot be. */
  unreadable: boolean;
};

export const AS_WRITTEN: Amended = { leftOut: false, happenedAt: null, unreadable: false };

/** By the id of the entry. */
export type Amendment = Readonly<Record<string, Amended>>;

/** What a kept entry says; one of another build may say what this one has no words for. */
export const keptWords = (entry: Draft, say: (entry: Draft) => string): string => {
  try {
    return say(entry);
  } catch {
    return `An entry “${entry.kind}” that this page cannot read`;
  }
};

/**
 * The entries as they are to be sent: without what is left out, at the times that were put right, and with their steps
 * behind what stands in the record now. A visit that lies wholly before that keeps its own place: the record looks
 * whether it fits into the gap.
 *
 * @param state the bedside as the record has it; null: not known, then every entry keeps its place
 */
export const toSend = (entries: readonly Draft[], amendment: Amendment, state: BedsideState | null): Draft[] => {
  const going = entries
    .filter(({ id }) => !amendment[id]?.leftOut)
    .map((entry) => ({ ...entry, happenedAt: amendment[entry.id]?.happenedAt ?? entry.happenedAt }) as Draft);
  const first = going.find(({ kind }) => isStep(kind));
  const fitsBehind = first !== undefined && (state?.headAt == null || first.happenedAt >= state.headAt);
  if (!state || !fitsBehind) return going;
  let after = state.head;
  return going.map((entry) => {
    if (!isStep(entry.kind)) return entry;
    const next = { ...entry, after } as Draft;
    after = entry.id;
    return next;
  });
};
