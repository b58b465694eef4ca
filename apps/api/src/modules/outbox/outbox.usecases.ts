import { entryBatch, type OutboxAnswer, type OutboxBatch, type ProblemCode } from '@slackwater/contract';
import { may } from '@slackwater/domain';
import type { SignedIn } from '../../access/sessions.ts';
import { invalid } from '../../problems.handler.ts';
import { ProblemError } from '../../problems.ts';
import { problemsOf } from '../../problems.zod.ts';
import { writeEntries } from '../entries/entries.usecases.ts';
import type { Parts } from '../parts.ts';
import { mayWriteNothing, somebodyElse } from './outbox.errors.ts';
import { isKept, keep } from './outbox.repository.ts';

/** Refusals that the same batch would meet again: a person has to look. Everything else is tried again later. */
const FINAL: ReadonlySet<ProblemCode> = new Set([
  'invalid',
  'notAllowed',
  'notFound',
  'conflict',
  'idTaken',
  'taken',
  'refused',
] satisfies ProblemCode[]);

/**
 * Takes one touch that waited on a device: into the record, or, where that refuses it for good, into what is kept for
 * its author. Sent twice, the answer is the same and nothing is doubled.
 * @throws ProblemError `unknownAfter`, `busy` (the device sends it again), `notSignedIn` where somebody else is signed
 *   in, `notAllowed` to whom records nowhere
 */
export async function takeFromOutbox(
  parts: Pick<Parts, 'access' | 'pool' | 'record'>,
  by: SignedIn,
  deviceHash: Buffer | null,
  batch: OutboxBatch,
): Promise<OutboxAnswer> {
  if (batch.authorId !== by.accountId) throw somebodyElse();
  if (!by.roles.some(({ role }) => may(role, 'recordExchange') || may(role, 'recordObservation'))) {
    throw mayWriteNothing();
  }
  try {
    return { outcome: 'recorded', answer: await writeEntries(parts, by, readStrictly(batch), { waited: true }) };
  } catch (error) {
    if (!(error instanceof ProblemError) || !(await isFinal(parts, by, batch, error))) throw error;
    const problem = { code: error.code, detail: error.message, errors: error.more.errors ?? [] };
    const { siteId } = parts.access;
    const keptId = await keep(parts.pool, { siteId, authorId: by.accountId, deviceHash, batch, problem });
    return { outcome: 'kept', keptId, problem };
  }
}

function readStrictly({ authorId: _, ...batch }: OutboxBatch) {
  const read = entryBatch.safeParse(batch, { reportInput: true });
  if (!read.success) throw invalid(problemsOf(read.error, 'body'));
  return read.data;
}

/** A step that follows a kept one would wait for ever. */
async function isFinal(
  { access, pool }: Pick<Parts, 'access' | 'pool'>,
  by: SignedIn,
  batch: OutboxBatch,
  { code }: ProblemError,
): Promise<boolean> {
  if (code !== 'unknownAfter') return FINAL.has(code);
  for (const { after } of batch.entries) {
    if (typeof after === 'string' && (await isKept(pool, access.siteId, by.accountId, after))) return true;
  }
  return false;
}
