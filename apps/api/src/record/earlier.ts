import { isDeepStrictEqual } from 'node:util';
import type { Draft } from '@slackwater/domain';
import type { Batch, Receipt } from './batch.ts';
import { type Queryable, readByIds } from './standing.ts';
import type { StoredEntry } from './stored-entry.ts';

/** What of a batch stands in the record already, or the id that stands for something else there. */
export type Earlier = { receipts: readonly Receipt[] } | { takenId: string };

/**
 * Twice is once: a draft whose id stands in the record with the same content, author and patient has its first
 * receipt; the same id with anything else is a clash of which nothing is shown.
 */
export async function earlierOf(db: Queryable, batch: Batch): Promise<Earlier> {
  const stored = await readByIds(
    db,
    batch.siteId,
    batch.drafts.map((draft) => draft.id),
  );
  const byId = new Map(stored.map((entry) => [entry.id, entry]));
  const receipts: Receipt[] = [];
  for (const draft of batch.drafts) {
    const entry = byId.get(draft.id);
    if (entry === undefined) continue;
    if (!isSame(draft, entry, batch)) return { takenId: draft.id };
    const { id, position, receivedAt, happenedAt } = entry;
    receipts.push({ id, position, receivedAt, happenedAt });
  }
  return { receipts };
}

function isSame(draft: Draft, entry: StoredEntry, { author }: Batch): boolean {
  return (
    entry.author === author.accountId &&
    entry.patientId === draft.patientId &&
    entry.visitId === draft.visitId &&
    entry.kind === draft.kind &&
    entry.format === draft.format &&
    entry.happenedAt === draft.happenedAt &&
    entry.after === draft.after &&
    entry.bytes !== null &&
    // Through JSON on both sides: that is how it was stored.
    isDeepStrictEqual(JSON.parse(JSON.stringify(draft.payload)), JSON.parse(entry.bytes.toString('utf8')))
  );
}
