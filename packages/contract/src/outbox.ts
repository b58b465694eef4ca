import type { Draft, EpochMs, PatientIdentity } from '@slackwater/domain';
import { z } from 'zod';
import { entriesAnswer, patientAnswer } from './answers/views.ts';
import { draft, type EntriesAnswer, MOST_ENTRIES } from './entries/batch.ts';
import { instant, text, uuid, wardId } from './primitives.ts';
import type { ProblemCode } from './problem-codes.ts';
import { type FieldProblem, fieldProblem, problemCode } from './problem-document.ts';

/** An entry as a device kept it: read strictly only after it is safe on the server, since its device may be an old one. */
const keptEntry = z.looseObject({ id: uuid, kind: z.string().max(60), patientId: uuid.nullable() });

/**
 * `POST /api/outbox`: one touch that waited on its device. It is written into the record, or, where the record refuses
 * it, kept on the server for its author: either way the device may forget it once this is answered.
 */
export const outboxBatch = z.strictObject({
  /** Whose they are: another's session, opened meanwhile in the same browser, must not send them. */
  authorId: uuid,
  wardId,
  /** When it was written, by the device's own clock. */
  deviceAt: instant,
  entries: z.array(keptEntry).min(1).max(MOST_ENTRIES),
});
export type OutboxBatch = z.infer<typeof outboxBatch>;

/** Why the record refused a batch. */
export type KeptProblem = { code: ProblemCode; detail: string; errors: readonly FieldProblem[] };

const keptProblem: z.ZodType<KeptProblem> = z.strictObject({
  code: problemCode,
  detail: z.string(),
  errors: z.array(fieldProblem),
});

export type OutboxAnswer =
  | { outcome: 'recorded'; answer: EntriesAnswer }
  | { outcome: 'kept'; keptId: string; problem: KeptProblem };

export const outboxAnswer: z.ZodType<OutboxAnswer> = z
  .discriminatedUnion('outcome', [
    z.strictObject({ outcome: z.literal('recorded'), answer: entriesAnswer }),
    z.strictObject({ outcome: z.literal('kept'), keptId: uuid, problem: keptProblem }),
  ])
  .meta({ id: 'OutboxAnswer' });

/** One refused batch that nobody has decided about yet. */
export type KeptBatch = {
  id: string;
  wardId: string;
  author: { id: string; name: string };
  patientId: string | null;
  /** null: there is no such patient, or the reader has no role where the patient lies. */
  patient: PatientIdentity | null;
  /** When it was written on the device, and when it was refused. */
  deviceAt: EpochMs;
  keptAt: EpochMs;
  /** As the device sent them; an older device's may not be readable as entries of today. */
  entries: readonly Draft[];
  problem: KeptProblem;
};

/** `GET /api/kept` (one's own) and `GET /api/wards/:ward/kept` (who may release), oldest first. */
export type KeptView = { batches: readonly KeptBatch[] };

export const keptAnswer = z
  .strictObject({
    batches: z.array(
      z.strictObject({
        id: uuid,
        wardId,
        author: z.strictObject({ id: uuid, name: z.string() }),
        patientId: uuid.nullable(),
        patient: patientAnswer.nullable(),
        deviceAt: z.int(),
        keptAt: z.int(),
        entries: z.array(keptEntry),
        problem: keptProblem,
      }),
    ),
  })
  .meta({ id: 'KeptView' }) as unknown as z.ZodType<KeptView>;

const reason = text(500);
const ids = z.array(uuid).min(1).max(MOST_ENTRIES);

/**
 * `POST /api/kept/send`: entries of kept batches go into the record, as they are or amended. Every one must have been
 * kept, by the same author, of the same kind and patient; what is left out is not recorded.
 */
export const keptSend = z.strictObject({
  batchIds: ids,
  entries: z.array(draft).min(1).max(MOST_ENTRIES),
  /** Needed where another than the author sends, and where something is left out. */
  reason: reason.nullable(),
});
export type KeptSend = { batchIds: readonly string[]; entries: readonly Draft[]; reason: string | null };

/** `POST /api/kept/discard`: kept batches are never recorded; they stay readable with the reason. */
export const keptDiscard = z.strictObject({ batchIds: ids, reason });
export type KeptDiscard = { batchIds: readonly string[]; reason: string };
