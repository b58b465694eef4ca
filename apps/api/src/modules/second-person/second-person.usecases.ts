import type { EntriesAnswer, SecondPerson } from '@slackwater/contract';
import { may, type Role } from '@slackwater/domain';
import type { From } from '../../access/attempts.ts';
import type { SignedIn } from '../../access/sessions.ts';
import { ProblemError } from '../../problems.ts';
import { asProblem } from '../entries/entries.errors.ts';
import type { Parts } from '../parts.ts';
import { wrongSignIn } from '../session/session.errors.ts';
import { tryPassword } from '../session/session.usecases.ts';

/**
 * Writes a check in the name of a second person, who gives their own password at this device. Wrong ones are slowed as at
 * sign-in; each try is in the audit, under both. No session is made, and the one at this device stays.
 * @throws ProblemError `wrongSignIn`, `tooManyAttempts`, `busy`, `notAllowed`, `notFound`, `refused`, `idTaken`
 */
export async function checkAsSecondPerson(
  { access, prisma, record }: Pick<Parts, 'access' | 'prisma' | 'record'>,
  by: SignedIn,
  { login, password, wardId, deviceAt, entry }: SecondPerson,
  from: From,
): Promise<EntriesAnswer> {
  const { siteId } = access.openWard(by, wardId, 'recordExchange');
  const { account, isRight } = await tryPassword({ access, prisma }, login.trim().toLowerCase(), password, from);
  const note = (action: 'secondPersonChecked' | 'secondPersonFailed') =>
    access.audit.note({
      action,
      accountId: account?.id ?? null,
      address: from.address,
      wardId,
      ...(entry.patientId === null ? {} : { patientId: entry.patientId }),
      detail: { inSessionOf: by.accountId },
    });
  if (!account || !isRight) {
    await note('secondPersonFailed');
    throw wrongSignIn();
  }
  const roles = account.roles.filter((one) => one.wardId === wardId).map((one) => one.role as Role);
  const role = roles.find((one) => may(one, 'checkAdditives'));
  if (!role) {
    await note('secondPersonFailed');
    throw new ProblemError('notAllowed', 'The second person is a nurse or a physician of this ward.');
  }
  const author = { accountId: account.id, role };
  const result = await record.append({
    siteId,
    wardId,
    author,
    deviceAt,
    drafts: [entry],
    waited: false,
    releasedBy: null,
  });
  if (!result.ok) throw asProblem(result.failure);
  await note('secondPersonChecked');
  return result.appended;
}
