import type { Order, PrescriptionItem, PrescriptionRevision } from '@slackwater/domain';
import type { PrismaClient } from '../../../../../prisma/generated/client.ts';
import type { PatientAccess } from '../../access/patient-access.ts';

/** All revisions, newest first. */
export async function revisionsOf(
  prisma: PrismaClient,
  { ward, patientId }: PatientAccess,
): Promise<PrescriptionRevision[]> {
  const rows = await prisma.prescriptionRevision.findMany({
    where: { siteId: ward.siteId, patientId },
    include: { items: { orderBy: { place: 'asc' } } },
    orderBy: { number: 'desc' },
  });
  return rows.map((row) => ({
    id: row.id,
    number: row.number,
    items: row.items.map(({ id, solutionId, fillMl, additives, dwell, windowMinutes, condition }) => ({
      id,
      solutionId,
      fillMl,
      additives: additives as unknown as PrescriptionItem['additives'],
      dwell: dwell as PrescriptionItem['dwell'],
      windowMinutes,
      condition,
    })),
    limits: row.limits as PrescriptionRevision['limits'],
    acute: row.acute,
    note: row.note,
    reviewBy: row.reviewBy?.getTime() ?? null,
    prescribedAt: row.prescribedAt.getTime(),
    prescribedBy: row.prescribedBy,
  }));
}

/** All orders, newest first. */
export async function ordersOf(prisma: PrismaClient, { ward, patientId }: PatientAccess): Promise<Order[]> {
  const rows = await prisma.order.findMany({
    where: { siteId: ward.siteId, patientId },
    orderBy: [{ givenAt: 'desc' }, { id: 'desc' }],
  });
  return rows.map((row) => ({
    id: row.id,
    content: row.content as Order['content'],
    note: row.note,
    givenAt: row.givenAt.getTime(),
    givenBy: row.givenBy,
    telephone: row.telephonePhysician === null ? null : { physician: row.telephonePhysician, readBack: true },
    countersignBy: row.countersignBy?.getTime() ?? null,
    countersignedBy: row.countersignedBy,
    endedAt: row.endedAt?.getTime() ?? null,
  }));
}

/** The names behind account ids. */
export async function namesOf(
  prisma: PrismaClient,
  siteId: string,
  accountIds: readonly string[],
): Promise<Record<string, string>> {
  const rows = await prisma.account.findMany({
    where: { siteId, id: { in: [...new Set(accountIds)] } },
    select: { id: true, name: true },
  });
  return Object.fromEntries(rows.map(({ id, name }) => [id, name]));
}
