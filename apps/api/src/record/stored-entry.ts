import type { Entry, EntryKind, EpochMs } from '@slackwater/domain';
import { decodePayload } from './decode-payload.ts';

/** A row of `entry` with its payload's bytes, as the statements answer it. */
export type StoredEntry = {
  siteId: string;
  wardId: string;
  position: number;
  id: string;
  patientId: string | null;
  sequence: number | null;
  visitId: string | null;
  kind: EntryKind;
  format: number;
  happenedAt: EpochMs;
  deviceAt: EpochMs | null;
  receivedAt: EpochMs;
  author: string | null;
  after: string | null;
  target: string | null;
  /** null: erased by law. */
  bytes: Buffer | null;
};

/** The entry as the domain reads it, at its place in the ward. Not to be called for one whose payload was erased. */
export function entryOf(stored: StoredEntry): Entry {
  const { sequence: _, target: __, bytes, ...fields } = stored;
  if (bytes === null) throw new Error(`The payload of entry ${stored.id} was erased: it cannot be read.`);
  return { ...fields, payload: decodePayload(stored.kind, JSON.parse(bytes.toString('utf8'))) } as Entry;
}

/**
 * The entry as the fold reads it: its place is the one among the patient's own entries, since the positions of two
 * wards cannot be compared.
 */
export const foldable = (stored: StoredEntry): Entry => ({ ...entryOf(stored), position: stored.sequence! });
