import type { Entry } from '../record/entry.ts';
import { isVisitObservation, type VisitObservation } from './order-of-kinds.ts';

/**
 * Puts each observation of a visit behind the step that it speaks of: a drain's behind that drain's start, the visit's
 * behind its preparation. So a measure that is written two visits later counts where it belongs. Of two about one drain
 * the one recorded last stands last. Observations of a visit or a drain that does not count are left out.
 *
 * @param entries in canonical order
 */
export function withVisitObservations(entries: readonly Entry[]): readonly Entry[] {
  const observed = new Map<string, Entry<VisitObservation>[]>();
  for (const entry of entries) {
    if (!isVisitObservation(entry)) continue;
    const key = keyOf(entry.visitId, drainOf(entry));
    observed.set(key, [...(observed.get(key) ?? []), entry]);
  }
  const drains = new Map<string, number>();
  return entries.flatMap((entry): readonly Entry[] => {
    if (isVisitObservation(entry)) return [];
    if (entry.visitId === null || (entry.kind !== 'prepare' && entry.kind !== 'startDrain')) return [entry];
    const drain = entry.kind === 'prepare' ? 0 : (drains.get(entry.visitId) ?? 0) + 1;
    drains.set(entry.visitId, drain);
    const about = observed.get(keyOf(entry.visitId, drain)) ?? [];
    return [entry, ...about.sort((a, b) => a.position - b.position)];
  });
}

/** The drain that an observation speaks of, from 1; 0 = the visit as a whole. */
const drainOf = (entry: Entry<VisitObservation>): number => ('drain' in entry.payload ? entry.payload.drain : 0);

const keyOf = (visitId: string | null, drain: number): string => `${visitId}/${drain}`;
