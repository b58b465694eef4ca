import type { BedsideState, Draft, EntryKind, EpochMs } from '@slackwater/domain';
import { z } from 'zod';
import { instant, uuid, wardId } from '../primitives.ts';
import { type AuthoredKind, PAYLOAD_SCHEMAS } from './payloads.ts';

/** What is the ward's own. */
const OF_WARD: ReadonlySet<AuthoredKind> = new Set<AuthoredKind>(['settingsChanged', 'suppliesChanged']);

const draftOf = (kind: AuthoredKind) =>
  z.strictObject({
    id: uuid,
    kind: z.literal(kind),
    format: z.literal(1),
    payload: PAYLOAD_SCHEMAS[kind] as z.ZodType,
    patientId: OF_WARD.has(kind) ? z.null({ error: "null: this is the ward's, no patient's" }) : uuid.nullable(),
    visitId: uuid.nullable(),
    happenedAt: instant,
    after: uuid.nullable(),
  });

const kinds = Object.keys(PAYLOAD_SCHEMAS) as [AuthoredKind, ...AuthoredKind[]];
const [first, ...rest] = kinds.map(draftOf);

/** One entry as its author writes it. */
export const draft = z.discriminatedUnion('kind', [first!, ...rest]).meta({ id: 'Draft' }) as unknown as z.ZodType<
  Draft<AuthoredKind>
>;

/** The most entries that go in at once: an hour of a busy bed, kept on a tablet without network. */
export const MOST_ENTRIES = 100;

/** A second person's check, as it is written at the first person's device. */
export const additiveCheckDraft = draftOf('additiveChecked') as unknown as z.ZodType<Draft<'additiveChecked'>>;

/**
 * `POST /api/entries`: entries of one patient, or of the ward (settings), in the order in which they were written.
 * `deviceAt` is what the device takes for the ward's time when it sends; nothing is shifted by it on arrival.
 */
export const entryBatch = z.strictObject({
  wardId,
  deviceAt: instant,
  entries: z
    .array(draft)
    .min(1)
    .max(MOST_ENTRIES)
    .refine((all) => new Set(all.map(({ id }) => id)).size === all.length, {
      error: 'entries with an id of its own each',
    }),
});
export type EntryBatch = { wardId: string; deviceAt: EpochMs; entries: readonly Draft[] };

export type EntryReceipt = { id: string; position: number; receivedAt: EpochMs; happenedAt: EpochMs };
export const entryReceipt = z.strictObject({
  id: uuid,
  position: z.int(),
  receivedAt: instant,
  happenedAt: instant,
}) satisfies z.ZodType<EntryReceipt>;

/** All entries stand in the record, or none does. `bedside` is null for entries of the ward itself. */
export type EntriesAnswer = {
  receipts: readonly EntryReceipt[];
  bedside: BedsideState | null;
  position: number;
};

/** Who moved the head of a patient's steps while somebody else still saw the old one. */
export type Conflict = {
  entryId: string;
  kind: EntryKind;
  authorName: string | null;
  happenedAt: EpochMs;
  receivedAt: EpochMs;
};
