import { PAYLOAD_SCHEMAS } from '@slackwater/contract';
import type { Draft, EntryKind } from '@slackwater/domain';
import type { Pool } from 'pg';
import type { z } from 'zod';
import type { Access } from '../../access/access.ts';
import type { WardAccess } from '../../access/ward-access.ts';
import { invalid } from '../../problems.handler.ts';
import { ProblemError } from '../../problems.ts';
import { problemsOf } from '../../problems.zod.ts';
import type { Parts } from '../parts.ts';
import { cannotBeCorrected, noEntryOfAnother, unknownTarget } from './entries.errors.ts';
import { patientOfEntry, rootKind } from './entries.repository.ts';

/**
 * Looks at what corrections and retractions are about: the target must stand on the ward that was opened, or before
 * them in the batch, a new payload must be one that the target could have had, and what was entered for the right
 * patient must be there to be seen, which the wire alone cannot tell.
 * @throws ProblemError `refused` for a target that is not here or is the tool's, or for a link to nothing that this
 *   person may see; `invalid` for a payload that does not fit
 */
export async function checkAmendments(
  { access, pool }: Pick<Parts, 'access' | 'pool'>,
  ward: WardAccess,
  drafts: readonly Draft[],
) {
  for (const [index, draft] of drafts.entries()) {
    if (draft.kind !== 'corrected' && draft.kind !== 'retracted') continue;
    const kind = await kindOf(pool, ward, draft.payload.target, drafts.slice(0, index));
    if (!kind) throw unknownTarget(index, draft.payload.target);
    if (draft.kind === 'corrected') checkPayload(kind, draft.payload.payload, index);
    else await checkEnteredAs(access, pool, ward, draft, index);
  }
}

/** Whether there is no such entry or this person may not see it is not told apart: either way it is no link. */
async function checkEnteredAs(
  access: Access,
  pool: Pool,
  { siteId, by }: WardAccess,
  { patientId, payload: { enteredAs } }: Draft<'retracted'>,
  index: number,
) {
  if (enteredAs === null) return;
  const enteredFor = await patientOfEntry(pool, siteId, enteredAs);
  if (enteredFor === null || enteredFor === patientId) throw noEntryOfAnother(index, enteredAs);
  await access.openPatient(by, enteredFor, 'readPatient').catch((error: unknown) => {
    throw error instanceof ProblemError ? noEntryOfAnother(index, enteredAs) : error;
  });
}

/** What a target is in the end about; each step back goes to an earlier draft, so a circle cannot be. */
async function kindOf(
  pool: Pool,
  ward: WardAccess,
  target: string,
  before: readonly Draft[],
): Promise<EntryKind | null> {
  const index = before.findIndex(({ id }) => id === target);
  const found = before[index];
  if (!found) return rootKind(pool, ward, target);
  if (found.kind !== 'corrected' && found.kind !== 'retracted') return found.kind;
  return kindOf(pool, ward, found.payload.target, before.slice(0, index));
}

function checkPayload(kind: EntryKind, payload: unknown, index: number) {
  // nobody could say whether it is right: what the tool wrote is retracted, and entered anew by a person
  if (!(kind in PAYLOAD_SCHEMAS)) throw cannotBeCorrected(index, kind);
  const schema: z.ZodType = PAYLOAD_SCHEMAS[kind as keyof typeof PAYLOAD_SCHEMAS];
  const read = schema.safeParse(payload, { reportInput: true });
  if (!read.success) throw invalid(problemsOf(read.error, 'body', ['entries', index, 'payload', 'payload']));
}
