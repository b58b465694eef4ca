import type { EntriesAnswer, KeptDiscard, KeptSend, KeptView } from '@slackwater/contract';
import type { Draft } from '@slackwater/domain';
import type { SignedIn } from '../../access/sessions.ts';
import { rolesOn } from '../../access/ward-access.ts';
import { writeEntries } from '../entries/entries.usecases.ts';
import type { Parts } from '../parts.ts';
import { alreadyRecorded, notKept, otherEntry, reasonMissing, severalAuthors } from './outbox.errors.ts';
import { anyRecorded, end, type OpenBatch, openBatches, type Whose } from './outbox.repository.ts';

type KeptParts = Pick<Parts, 'access' | 'pool' | 'record'>;

/** What waits for a decision; who the patient is, is told to whom has a role where the patient lies. */
export async function keptView({ access, pool }: KeptParts, by: SignedIn, whose: Whose): Promise<KeptView> {
  const batches = await openBatches(pool, access.siteId, whose, null);
  return {
    batches: batches.map(({ patientWardId, ...batch }) => {
      const maySee = rolesOn(by, patientWardId ?? batch.wardId).length > 0;
      return maySee ? batch : { ...batch, patient: null };
    }),
  };
}

/**
 * Sends what was kept into the record, as it is or amended. The entries stay their author's; where another lets them
 * in, that stands in the record beside it.
 * @throws ProblemError `notFound`, `notAllowed`, `refused`, and all that writing entries may throw
 */
export async function sendKept(
  parts: KeptParts,
  by: SignedIn,
  { batchIds, entries, reason }: KeptSend,
  address: string,
): Promise<EntriesAnswer> {
  const { batches, first } = await toDecide(parts, by, batchIds);
  checkKept(batches, entries);
  const isOwn = first.author.id === by.accountId;
  const leftOut = batches.flatMap((batch) => batch.entries).length - entries.length;
  if (reason === null && (!isOwn || leftOut > 0)) throw reasonMissing();

  const { siteId } = parts.access;
  const { wardId, deviceAt, patientId } = first;
  const batch = { wardId, deviceAt, entries };
  const answer = await writeEntries(parts, by, batch, { waited: true, authorId: first.author.id });
  const sent = entries.map(({ id }) => id);
  await end(parts.pool, { siteId, batchIds, by: by.accountId, how: 'sent', reason, sent });
  await parts.access.audit.note({
    action: isOwn ? 'sentKept' : 'releasedKept',
    accountId: by.accountId,
    address,
    wardId,
    ...(patientId === null ? {} : { patientId }),
    detail: { batches: batchIds, author: first.author.id, sent: sent.length, leftOut, reason },
  });
  return answer;
}

/**
 * Decides that what was kept is never recorded. It stays readable, with the reason and who said so.
 * @throws ProblemError `notFound`, `notAllowed`, `refused`
 */
export async function discardKept(
  parts: KeptParts,
  by: SignedIn,
  { batchIds, reason }: KeptDiscard,
  address: string,
): Promise<void> {
  const { batches, first } = await toDecide(parts, by, batchIds);
  const { siteId } = parts.access;
  const entryIds = batches.flatMap((batch) => batch.entries.map(({ id }) => id));
  if (await anyRecorded(parts.pool, siteId, entryIds)) throw alreadyRecorded();
  await end(parts.pool, { siteId, batchIds, by: by.accountId, how: 'discarded', reason, sent: [] });
  await parts.access.audit.note({
    action: 'discardedKept',
    accountId: by.accountId,
    address,
    wardId: first.wardId,
    ...(first.patientId === null ? {} : { patientId: first.patientId }),
    detail: { batches: batchIds, author: first.author.id, entries: entryIds.length, reason },
  });
}

/** The batches, if this person may decide about all of them: their author, or who may release on that ward. */
async function toDecide({ access, pool }: KeptParts, by: SignedIn, batchIds: readonly string[]) {
  const batches = await openBatches(pool, access.siteId, null, batchIds);
  const [first] = batches;
  if (!first || batches.length !== new Set(batchIds).size) throw notKept();
  const alike = (one: OpenBatch) =>
    one.author.id === first.author.id && one.wardId === first.wardId && one.patientId === first.patientId;
  if (!batches.every(alike)) throw severalAuthors();
  if (first.author.id !== by.accountId) access.openWard(by, first.wardId, 'releaseOutbox');
  return { batches, first };
}

/** Under another's name nothing may be sent that the other did not write. */
function checkKept(batches: readonly OpenBatch[], entries: readonly Draft[]) {
  const kept = new Map(batches.flatMap((batch) => batch.entries).map((entry) => [entry.id, entry]));
  for (const [index, entry] of entries.entries()) {
    const was = kept.get(entry.id);
    const isSame = was?.kind === entry.kind && was.patientId === entry.patientId && was.visitId === entry.visitId;
    if (!isSame) throw otherEntry(index, entry.id);
  }
}
