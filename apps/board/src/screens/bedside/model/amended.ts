import type { EntryView } from '@slackwater/contract';

type Correction = EntryView & { kind: 'corrected' };
type Retraction = EntryView & { kind: 'retracted' };

/** What an entry says after its corrections, which one said so last, and whether it never counted. */
export type Amended = {
  /** The id that a further correction or a retraction names. */
  lastId: string;
  payload: Readonly<Record<string, unknown>>;
  happenedAt: number;
  corrections: readonly Correction[];
  retraction: Retraction | null;
};

/** Follows an entry through the corrections that stand beside it. @param entries all that may have amended it */
export const amended = (entry: EntryView, entries: readonly EntryView[]): Amended => {
  const byId = new Map(entries.map((one) => [one.id, one]));
  const corrections: Correction[] = [];
  let last = entry;
  while (last.correctedBy !== null) {
    const next = byId.get(last.correctedBy);
    if (next?.kind !== 'corrected') break;
    corrections.push(next);
    last = next;
  }
  const retraction = last.retractedBy === null ? undefined : byId.get(last.retractedBy);
  const newest = corrections.at(-1);
  return {
    lastId: last.id,
    payload: (newest ? newest.payload.payload : entry.payload) as Readonly<Record<string, unknown>>,
    happenedAt: newest ? newest.payload.happenedAt : entry.happenedAt,
    corrections,
    retraction: retraction?.kind === 'retracted' ? retraction : null,
  };
};
