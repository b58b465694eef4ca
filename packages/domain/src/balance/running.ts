import type { Dwell } from '../dwell/dwell.ts';
import type { EpochMs } from '../time/instant.ts';

/** The running sum after a dwell, mL, positive = removed; null from the first missing volume on: never a sum over a gap. */
export type RunningBalance = { dwellId: string; at: EpochMs; removedMl: number | null };

/** The running balance over drained dwells, oldest first; open dwells are left out. */
export function runningBalance(dwells: readonly Dwell[]): readonly RunningBalance[] {
  const drained = dwells
    .flatMap((dwell) => (dwell.drainedAt === null ? [] : [{ dwell, at: dwell.drainedAt }]))
    .sort((a, b) => a.at - b.at);
  let removedMl: number | null = 0;
  return drained.map(({ dwell, at }) => {
    removedMl = removedMl === null || dwell.drainMinusFillMl === null ? null : removedMl + dwell.drainMinusFillMl;
    return { dwellId: dwell.id, at, removedMl };
  });
}
