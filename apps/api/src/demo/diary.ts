import { randomUUIDv7 } from 'node:crypto';
import type { Draft, EntryKind, EpochMs, Payloads } from '@slackwater/domain';

/** A draft and who wrote it; `author` is a login, null = the tool itself. */
export type Written = { draft: Draft; author: string | null };

/** Collects one patient's entries in the order of their happening and links each step to the one before. */
export type Diary = {
  observe<K extends EntryKind>(
    kind: K,
    at: EpochMs,
    author: string | null,
    payload: Payloads[K],
    visitId?: string,
  ): string;
  step<K extends EntryKind>(
    kind: K,
    at: EpochMs,
    author: string,
    visitId: string,
    payload: Payloads[K],
    id?: string,
  ): string;
  written: readonly Written[];
};

export function diary(patientId: string): Diary {
  const written: Written[] = [];
  let head: string | null = null;
  const add = (
    kind: EntryKind,
    at: EpochMs,
    author: string | null,
    payload: unknown,
    visitId: string | null,
    after: string | null,
    id: string = randomUUIDv7(),
  ) => {
    written.push({
      author,
      draft: { id, kind, format: 1, payload, patientId, visitId, happenedAt: at, after } as Draft,
    });
    return id;
  };
  return {
    written,
    observe: (kind, at, author, payload, visitId) => add(kind, at, author, payload, visitId ?? null, null),
    step: (kind, at, author, visitId, payload, id) => {
      head = add(kind, at, author, payload, visitId, head, id);
      return head;
    },
  };
}
