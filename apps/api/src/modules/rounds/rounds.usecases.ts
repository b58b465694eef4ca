import type { RoundsView } from '@slackwater/contract';
import type { EpochMs, WardPolicy } from '@slackwater/domain';
import { balanceOf, wardDayAt, wardDayOf } from '@slackwater/domain';
import { plusDays } from '@slackwater/domain/time/zone';
import type { PrismaClient } from '../../../../../prisma/generated/client.ts';
import type { PatientAccess } from '../../access/patient-access.ts';
import { dwellsSince, observedSince } from './rounds.repository.ts';

/** The trends of the last `days` ward days, today's among them. Every sum is the domain's. */
export async function roundsOf(
  prisma: PrismaClient,
  patient: PatientAccess,
  policy: WardPolicy,
  now: EpochMs,
  days: number,
): Promise<RoundsView> {
  const today = wardDayAt(now, policy);
  const wardDays = Array.from({ length: days }, (_, ago) => wardDayOf(plusDays(today.date, ago + 1 - days), policy));
  const from = wardDays[0]!.from;
  const [dwells, weights, bloodPressures, otherFluids] = await Promise.all([
    dwellsSince(prisma, patient, from),
    observedSince(prisma, patient, 'weight', from),
    observedSince(prisma, patient, 'bloodPressure', from),
    observedSince(prisma, patient, 'otherFluid', from),
  ]);
  return {
    dwells,
    days: wardDays.map((day) => ({ date: day.date, balance: balanceOf(dwells, otherFluids, day.from, day.to) })),
    weights,
    bloodPressures,
    otherFluids,
  };
}
