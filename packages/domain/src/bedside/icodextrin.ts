import { isIcodextrin } from '../caution/icodextrin.ts';
import type { EpochMs } from '../time/instant.ts';
import type { WardPolicy } from '../ward/policy.ts';
import type { BedsideState } from './state.ts';

/** The last instant at which icodextrin is known to have been inside: the end of a fill, or of a drain of one. */
export function icodextrinLastAt(state: BedsideState, policy: WardPolicy): EpochMs | null {
  const { cavity, openDwell, lastDwells, icodextrinAt } = state;
  const instants: EpochMs[] = icodextrinAt === null ? [] : [icodextrinAt];
  for (const dwell of openDwell === null ? lastDwells : [openDwell, ...lastDwells]) {
    if (dwell.drainedAt !== null && dwell.fills.some((fill) => isIcodextrin(fill.solutionId, policy)))
      instants.push(dwell.drainedAt);
  }
  for (const fill of cavity.state === 'holding' ? cavity.fills : []) {
    if (isIcodextrin(fill.solutionId, policy)) instants.push(fill.endedAt ?? fill.startedAt ?? cavity.since);
  }
  return instants.length === 0 ? null : Math.max(...instants);
}
