import type { EntriesAnswer, EntryBatch } from '@slackwater/contract';
import { type Draft, needsServer, within } from '@slackwater/domain';
import type { SignedIn } from '../../access/sessions.ts';
import type { WardAccess } from '../../access/ward-access.ts';
import { ProblemError } from '../../problems.ts';
import type { Parts } from '../parts.ts';
import { checkAmendments } from './amendments.ts';
import { asProblem, severalPatients } from './entries.errors.ts';
import { checkNamedStaff } from './named-staff.ts';

export type HowWritten = {
  /** It waited on its device, whose clock at that time is `deviceAt`. */
  waited?: boolean;
  /** Whose entries they are, where another lets them in, in the other's own role. */
  authorId?: string;
};

/**
 * Writes a batch into the record, all of it or nothing, in the name of whoever is signed in.
 * @throws ProblemError `invalid`, `notAllowed`, `notFound`, `conflict`, `idTaken`, `taken`, `unknownAfter`, `refused`
 */
export async function writeEntries(
  { access, pool, record }: Pick<Parts, 'access' | 'pool' | 'record'>,
  by: SignedIn,
  { wardId, deviceAt, entries }: EntryBatch,
  { waited = false, authorId = by.accountId }: HowWritten = {},
): Promise<EntriesAnswer> {
  if (new Set(entries.map(({ patientId }) => patientId)).size > 1) throw severalPatients();
  const ward = access.openWard(by, wardId, 'readBoard');
  const role = roleToWriteAll(ward, entries);
  if (authorId !== by.accountId) refuseSecondPersons(entries);
  await checkAmendments({ access, pool }, ward, entries);
  await checkNamedStaff(pool, ward, entries);
  const author = { accountId: authorId, role };
  const releasedBy = authorId === by.accountId ? null : by.accountId;
  const batch = { siteId: ward.siteId, wardId, author, deviceAt, drafts: entries, waited, releasedBy };
  const result = await record.append(batch);
  if (!result.ok) throw asProblem(result.failure);
  return result.appended;
}

/** Nobody lets in the word of a second person for them. @throws ProblemError `refused` */
function refuseSecondPersons(drafts: readonly Draft[]) {
  for (const [index, draft] of drafts.entries()) {
    const problem = draft.kind === 'additiveChecked' ? needsServer(draft) : null;
    if (problem !== null) throw asProblem({ code: 'refused', problems: [within(`entries.${index}`, problem)] });
  }
}

/** One batch is written in one role. @throws ProblemError `notAllowed` */
function roleToWriteAll(ward: WardAccess, drafts: readonly Draft[]) {
  const roles = new Set(drafts.map(({ kind, payload }) => ward.roleToWrite(kind, payload)));
  const [role, ...others] = roles;
  if (role && others.length === 0) return role;
  throw new ProblemError('notAllowed', 'These entries belong to different roles: send them apart.');
}
