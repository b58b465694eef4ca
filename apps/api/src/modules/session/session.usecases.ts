import type { Session, SignIn } from '@slackwater/contract';
import type { PrismaClient } from '../../../../../prisma/generated/client.ts';
import type { Access } from '../../access/access.ts';
import type { From } from '../../access/attempts.ts';
import { isPassword } from '../../access/password.ts';
import { IDLE_LOCK_MS, type SignedIn } from '../../access/sessions.ts';
import { newToken } from '../../access/tokens.ts';
import { wrongPassword, wrongSignIn } from './session.errors.ts';
import { accountToSignIn, isDemonstration, wardsOf } from './session.repository.ts';

type Parts = { access: Access; prisma: PrismaClient };
type Browser = From & { userAgent: string | null };

/**
 * Signs somebody in.
 * @returns the session's token and the browser's own, both for cookies
 * @throws ProblemError `wrongSignIn`, `tooManyAttempts`, `busy`
 */
export async function signIn({ access, prisma }: Parts, who: SignIn, from: Browser) {
  const { login: typed, password } = who;
  const login = typed.trim().toLowerCase();
  const { isRight, account } = await tryPassword({ access, prisma }, login, password, from);
  if (!account || !isRight) {
    await access.audit.note({ action: 'signInFailed', accountId: account?.id ?? null, address: from.address });
    throw wrongSignIn();
  }
  const device = from.device ?? who.device ?? newToken();
  await access.attempts.succeeded(login, { address: from.address, device });
  const wallOnly = !account.manager && account.roles.length > 0 && account.roles.every(({ role }) => role === 'wall');
  const token = await access.sessions.start({ id: account.id, wallOnly }, from);
  await access.audit.note({ action: 'signedIn', accountId: account.id, address: from.address });
  return { token, device, deviceKey: await access.deviceKeys.of(account.id, device) };
}

/**
 * Takes the lock off, for the person whose session it is.
 * @throws ProblemError `wrongSignIn`, `tooManyAttempts`, `busy`
 */
export async function unlock({ access, prisma }: Parts, by: SignedIn, password: string, from: From) {
  const { isRight } = await tryPassword({ access, prisma }, by.login, password, from);
  const about = { accountId: by.accountId, address: from.address };
  if (!isRight) {
    await access.audit.note({ action: 'unlockFailed', ...about });
    throw wrongPassword();
  }
  await access.sessions.unlock(by.sessionId);
  await access.audit.note({ action: 'unlocked', ...about });
}

/** Whether the password is right; a wrong one counts against its source, anything else does not. */
export const tryPassword = ({ access, prisma }: Parts, login: string, password: string, from: From) =>
  access.attempts.guess(
    { what: 'password', login, from },
    async () => {
      const account = await accountToSignIn(prisma, access.siteId, login);
      return { account, isRight: await isPassword(password, account?.passwordHash ?? null) };
    },
    ({ isRight }) => isRight,
  );

/** The session as its own person may see it. */
export async function sessionView({ access, prisma }: Parts, by: SignedIn): Promise<Session> {
  return {
    account: { id: by.accountId, login: by.login, name: by.name },
    roles: by.manager ? [...clinical(by.roles), ...(await wardsAsManager(prisma, access.siteId))] : by.roles,
    manager: by.manager,
    lockedAt: by.lockedAt,
    idleLockMs: IDLE_LOCK_MS,
    endsAt: by.endsAt,
    demonstration: await isDemonstration(prisma, access.siteId),
    serverAt: by.readAt,
  };
}

const clinical = (roles: Session['roles']) => roles.filter(({ role }) => role !== 'manager');

/** A manager of the hospital is one on each of its wards, so each of them can be found. */
async function wardsAsManager(prisma: PrismaClient, siteId: string): Promise<Session['roles']> {
  const wards = await wardsOf(prisma, siteId);
  return wards.map(({ id, name }) => ({ wardId: id, wardName: name, role: 'manager' }));
}
