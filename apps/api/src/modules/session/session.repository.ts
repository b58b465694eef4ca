import type { PrismaClient } from '../../../../../prisma/generated/client.ts';

/** What a sign-in needs to know of an account; null where there is none that may sign in. */
export const accountToSignIn = (prisma: PrismaClient, siteId: string, login: string) =>
  prisma.account.findFirst({
    where: { siteId, login, disabledAt: null },
    select: { id: true, passwordHash: true, manager: true, roles: { select: { role: true, wardId: true } } },
  });

/** Whether the data of this hospital are invented. */
export const isDemonstration = async (prisma: PrismaClient, siteId: string): Promise<boolean> =>
  (await prisma.demonstration.count({ where: { siteId } })) > 0;

/** Every ward of the hospital, by name. */
export const wardsOf = (prisma: PrismaClient, siteId: string): Promise<{ id: string; name: string }[]> =>
  prisma.ward.findMany({
    where: { siteId },
    select: { id: true, name: true },
    orderBy: [{ name: 'asc' }, { id: 'asc' }],
  });
