import type { Dwell, EpochMs, Payloads } from '@slackwater/domain';
import type { PrismaClient } from '../../../../../prisma/generated/client.ts';
import type { PatientAccess } from '../../access/patient-access.ts';

/** Dwells whose last drain ended at or after `from`, and the open one, oldest first. */
export async function dwellsSince(
  prisma: PrismaClient,
  { ward, patientId }: PatientAccess,
  from: EpochMs,
): Promise<Dwell[]> {
  const rows = await prisma.dwell.findMany({
    where: {
      siteId: ward.siteId,
      patientId,
      OR: [{ drainedAt: { gte: new Date(from) } }, { drainedAt: null }],
    },
    orderBy: [{ drainedAt: { sort: 'asc', nulls: 'last' } }, { id: 'asc' }],
    select: { content: true },
  });
  return rows.map(({ content }) => content as unknown as Dwell);
}

type Trend = 'weight' | 'bloodPressure' | 'otherFluid';

/** What was observed of a kind at or after `from`, oldest first. */
export async function observedSince<K extends Trend>(
  prisma: PrismaClient,
  { ward, patientId }: PatientAccess,
  kind: K,
  from: EpochMs,
): Promise<(Payloads[K] & { at: EpochMs })[]> {
  const rows = await prisma.observation.findMany({
    where: { siteId: ward.siteId, patientId, kind, at: { gte: new Date(from) } },
    orderBy: [{ at: 'asc' }, { id: 'asc' }],
    select: { at: true, content: true },
  });
  return rows.map(({ at, content }) => ({ ...(content as unknown as Payloads[K]), at: at.getTime() }));
}
