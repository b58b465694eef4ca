import type { EntryView } from '@slackwater/contract';
import { STEPS } from '@slackwater/domain/exchange/steps';

const STEP_KINDS: ReadonlySet<string> = new Set(STEPS);

/** What one touch wrote: its entries, newest first. */
export type LastAct = { entries: readonly EntryView[]; authorName: string | null };

/**
 * The newest act of a visit, which is the only one that may be undone: nothing follows it. The tool's own entries (an
 * alert raised meanwhile) do not count as following. null as well while these entries and the state beside them are not
 * of the same moment.
 *
 * @param entries newest first, as the record serves them
 * @param head the last step of the state that the screen shows
 */
export const lastActOf = (
  entries: readonly EntryView[],
  visitId: string | null,
  head: string | null,
): LastAct | null => {
  const said = entries
    .filter((entry) => entry.author !== null && entry.kind !== 'retracted' && entry.retractedBy === null)
    .sort((a, b) => b.position - a.position);
  const newest = said[0];
  if (!newest || newest.visitId !== visitId) return null;
  if (said.find((entry) => STEP_KINDS.has(entry.kind))?.id !== head) return null;
  const together = said.filter((entry) => entry.receivedAt === newest.receivedAt && entry.author === newest.author);
  return { entries: together, authorName: newest.authorName };
};

/** Steps last, so that observations that hang on a step go before it. */
export const inOrderOfUndoing = (entries: readonly EntryView[]): readonly EntryView[] => [
  ...entries.filter((entry) => !STEP_KINDS.has(entry.kind)),
  ...entries.filter((entry) => STEP_KINDS.has(entry.kind)),
];
