import type { Account, AccountChange, NewAccount } from '@slackwater/contract';
import { hashPassword } from '../../access/password.ts';
import type { SiteAccess } from '../../access/site-access.ts';
import { brokenConstraint } from '../../prisma-failures.ts';
import type { Parts } from '../parts.ts';
import { idTaken, loginTaken, noSuchAccount, noSuchWard } from './accounts.errors.ts';
import { addAccount, changeAccount } from './accounts.repository.ts';

const WARD_OF_ROLE = 'account_role_site_id_ward_id_fkey';

/** @throws ProblemError `taken` (the login), `idTaken`, `invalid` (a ward that does not exist), `busy` */
export async function makeAccount(
  parts: Parts,
  site: SiteAccess,
  { password, ...account }: NewAccount,
  address: string,
) {
  const passwordHash = await hashPassword(password);
  const made = await addAccount(parts.prisma, site, { ...account, passwordHash }, new Date()).catch((error) => {
    switch (brokenConstraint(error)) {
      case 'account_site_id_login_key':
        throw loginTaken(account.login);
      case 'account_pkey':
        throw idTaken();
      case WARD_OF_ROLE:
        throw noSuchWard(wardsOf(account.roles));
      default:
        throw error;
    }
  });
  await note(parts, site, 'madeAccount', address, { made: made.id, manager: made.manager, roles: made.roles });
  return made;
}

/**
 * Changes an account; whoever is disabled or has a new password is signed out everywhere.
 * @throws ProblemError `notFound`, `refused` (the last manager), `invalid`, `busy`
 */
export async function alterAccount(
  parts: Parts,
  site: SiteAccess,
  id: string,
  { password, ...change }: AccountChange,
  address: string,
): Promise<Account> {
  const secret = password === undefined ? {} : { passwordHash: await hashPassword(password) };
  const changed = await changeAccount(parts.prisma, site, id, { ...change, ...secret }, new Date()).catch((error) => {
    throw brokenConstraint(error) === WARD_OF_ROLE ? noSuchWard(wardsOf(change.roles ?? [])) : error;
  });
  if (!changed) throw noSuchAccount();
  if (change.disabled || password !== undefined) await parts.access.sessions.end(id, null);
  else await parts.access.sessions.changed(id);
  const what = { ...change, ...(password === undefined ? {} : { password: 'changed' }) };
  await note(parts, site, 'changedAccount', address, { changed: id, what });
  return changed;
}

const wardsOf = (roles: readonly { wardId: string }[]) => roles.map(({ wardId }) => wardId).join(', ');

const note = (
  { access }: Parts,
  { by }: SiteAccess,
  action: 'madeAccount' | 'changedAccount',
  address: string,
  detail: Record<string, unknown>,
) => access.audit.note({ action, accountId: by.accountId, address, detail });
