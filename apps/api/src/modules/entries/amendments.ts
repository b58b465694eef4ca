import { PAYLOAD_SCHEMAS } from '@slackwater/contract';
import type { Draft, EntryKind } from '@slackwater/domain';
import type { Pool } from 'pg';
import type { z } from 'zod';
import type { WardAccess } from '../../access/ward-access.ts';
import { invalid } from '../../problems.handler.ts';
import { problemsOf } from '../../problems.zod.ts';
import { unknownTarget } from './entries.errors.ts';
import { rootKind } from './entries.repository.ts';

/**
 * Looks at what corrections and retractions are about: the target must stand on the ward that was opened, and a new
 * payload must be one that the target could have had, which the wire alone cannot tell.
 * @throws ProblemError `refused` for a target that is not here, `invalid` for a payload that does not fit
 */
export async function checkAmendments(pool: Pool, ward: WardAccess, drafts: readonly Draft[]) {
  for (const [index, draft] of drafts.entries()) {
    if (draft.kind !== 'corrected' && draft.kind !== 'retracted') continue;
    const { target } = draft.payload;
    const kind = (await rootKind(pool, ward, target)) ?? drafts.find(({ id }) => id === target)?.kind;
    if (!kind) throw unknownTarget(index, target);
    if (draft.kind === 'corrected') checkPayload(kind, draft.payload.payload, index);
  }
}

function checkPayload(kind: EntryKind, payload: unknown, index: number) {
  // entries that the tool itself wrote have no schema here: the record says that they cannot be corrected
  if (!(kind in PAYLOAD_SCHEMAS)) return;
  const schema: z.ZodType = PAYLOAD_SCHEMAS[kind as keyof typeof PAYLOAD_SCHEMAS];
  const read = schema.safeParse(payload, { reportInput: true });
  if (!read.success) throw invalid(problemsOf(read.error, 'body', ['entries', index, 'payload', 'payload']));
}
