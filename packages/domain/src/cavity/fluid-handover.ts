import type { BedsideState } from '../bedside/state.ts';
import { sameAdditives } from '../prescription/additive.ts';
import type { FillSaid, FluidHandedOver, FluidSaid } from './fluid-said.ts';

/** What has to be told of the fluid inside; null = the cavity is empty, and nothing has. */
export function fluidToTell({
  cavity,
  inside,
  due,
}: Pick<BedsideState, 'cavity' | 'inside' | 'due'>): FluidSaid | null {
  if (cavity.state === 'empty') return null;
  return {
    cavity: cavity.state,
    since: cavity.since,
    fills:
      cavity.state === 'holding'
        ? cavity.fills.map(({ solutionId, filledMl, endedAt, additives }) => ({
            solutionId,
            filledMl,
            endedAt,
            additives,
          }))
        : [],
    leftMl: { flow: wholeMl(inside.flowMl), book: wholeMl(inside.bookMl) },
    drainDueAt: due?.what === 'drain' ? due.dueAt : null,
  };
}

const wholeMl = (ml: number | null): number | null => (ml === null ? null : Math.round(ml));

/** Whether two say the same of the fluid. */
export const sameFluid = (one: FluidSaid, other: FluidSaid): boolean =>
  one.cavity === other.cavity &&
  one.since === other.since &&
  one.leftMl.flow === other.leftMl.flow &&
  one.leftMl.book === other.leftMl.book &&
  one.drainDueAt === other.drainDueAt &&
  one.fills.length === other.fills.length &&
  one.fills.every((fill, index) => isSameFill(fill, other.fills[index]!));

const isSameFill = (one: FillSaid, other: FillSaid): boolean =>
  one.solutionId === other.solutionId &&
  one.filledMl === other.filledMl &&
  one.endedAt === other.endedAt &&
  sameAdditives(one.additives, other.additives);

/**
 * The handover that speaks of the fluid that is inside now, and whether the record says otherwise since (a volume put
 * right, another due time). null = nothing was handed over, or a drain has begun since.
 */
export function fluidTakenOver(
  state: Pick<BedsideState, 'cavity' | 'inside' | 'due' | 'fluidHandover' | 'openDwell' | 'lastDwells'>,
): { handover: FluidHandedOver; changedSince: boolean } | null {
  const handover = state.fluidHandover;
  const now = fluidToTell(state);
  if (handover === null || now === null || now.since !== handover.said.since) return null;
  const newest = state.openDwell ?? state.lastDwells[0];
  if (newest?.drains.some(({ startedAt }) => startedAt >= handover.at)) return null;
  // Nothing falls due for who is on no ward any more: that is no other time.
  const drainDueAt = now.drainDueAt ?? handover.said.drainDueAt;
  return { handover, changedSince: !sameFluid({ ...now, drainDueAt }, handover.said) };
}
