import type { Account, AccountChange, NewAccount } from '@slackwater/contract';
import type { Role } from '@slackwater/domain';
import type { Prisma, PrismaClient } from '../../../../../prisma/generated/client.ts';
import type { SiteAccess } from '../../access/site-access.ts';
import { lastManager } from './accounts.errors.ts';

const SHOWN = {
  id: true,
  login: true,
  name: true,
  manager: true,
  disabledAt: true,
  createdAt: true,
  roles: { select: { wardId: true, role: true }, orderBy: { wardId: 'asc' } },
} satisfies Prisma.AccountSelect;

type Row = Prisma.AccountGetPayload<{ select: typeof SHOWN }>;

const shown = (row: Row): Account => ({
  ...row,
  roles: row.roles.map(({ wardId, role }) => ({ wardId, role: role as Role })),
  disabledAt: row.disabledAt?.getTime() ?? null,
  createdAt: row.createdAt.getTime(),
});

/** All accounts of the hospital, by name; passwords never leave the database. */
export async function allAccounts(prisma: PrismaClient, { siteId }: SiteAccess): Promise<Account[]> {
  const rows = await prisma.account.findMany({ where: { siteId }, select: SHOWN, orderBy: { name: 'asc' } });
  return rows.map(shown);
}

export async function addAccount(
  prisma: PrismaClient,
  { siteId }: SiteAccess,
  account: Omit<NewAccount, 'password'> & { passwordHash: string },
  at: Date,
): Promise<Account> {
  const { roles, ...own } = account;
  const data = { ...own, siteId, passwordChangedAt: at, createdAt: at };
  const row = await prisma.$transaction(async (tx) => {
    await tx.account.create({ data });
    await tx.accountRole.createMany({ data: roles.map((role) => ({ ...role, siteId, accountId: own.id })) });
    return tx.account.findUniqueOrThrow({ where: { siteId_id: { siteId, id: own.id } }, select: SHOWN });
  });
  return shown(row);
}

/** @returns null where there is no such account. @throws ProblemError `refused` for the last manager */
export async function changeAccount(
  prisma: PrismaClient,
  { siteId }: SiteAccess,
  id: string,
  change: Omit<AccountChange, 'password'> & { passwordHash?: string },
  at: Date,
): Promise<Account | null> {
  const key = { siteId_id: { siteId, id } };
  const row = await prisma.$transaction(async (tx) => {
    // one change at a time, so that two managers cannot dismiss each other
    await tx.$queryRaw`SELECT id FROM account WHERE site_id = ${siteId} AND manager ORDER BY id FOR UPDATE`;
    const before = await tx.account.findUnique({ where: key, select: SHOWN });
    if (!before) return null;
    await tx.account.update({ where: key, data: dataOf(change, before, at) });
    if (change.roles) {
      await tx.accountRole.deleteMany({ where: { siteId, accountId: id } });
      await tx.accountRole.createMany({ data: change.roles.map((role) => ({ ...role, siteId, accountId: id })) });
    }
    const managers = await tx.account.count({ where: { siteId, manager: true, disabledAt: null } });
    if (managers === 0) throw lastManager();
    return tx.account.findUniqueOrThrow({ where: key, select: SHOWN });
  });
  return row && shown(row);
}

function dataOf(
  { name, manager, disabled, passwordHash }: Omit<AccountChange, 'password'> & { passwordHash?: string },
  before: Row,
  at: Date,
): Prisma.AccountUpdateInput {
  return {
    ...(name === undefined ? {} : { name }),
    ...(manager === undefined ? {} : { manager }),
    ...(disabled === undefined ? {} : { disabledAt: disabled ? (before.disabledAt ?? at) : null }),
    ...(passwordHash === undefined ? {} : { passwordHash, passwordChangedAt: at }),
  };
}
