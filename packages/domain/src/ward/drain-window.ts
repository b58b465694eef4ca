import type { BedsideState } from '../bedside/state.ts';
import { staysUntil } from '../dwell/additives-inside.ts';
import { type EpochMs, plusMinutes } from '../time/instant.ts';

/** From when to when a drain that is due may be moved, both included. */
export type DrainWindow = { from: EpochMs; to: EpochMs };

/**
 * The window that the prescription inside gives the drain that is due; it begins no earlier than what was added may be
 * drained.
 * @returns null where nothing may be moved: no window, a time that was ordered, an exchange that has begun
 */
export function drainWindow({ due, visit, cavity, revisionInside }: BedsideState): DrainWindow | null {
  if (due?.what !== 'drain' || visit !== null || cavity.state !== 'holding') return null;
  // what a physician set, and what a short drain left behind, has no window
  if (due.rule === 'order' || due.rule === 'afterDrain') return null;
  const windowMinutes = revisionInside?.items.find(({ id }) => id === cavity.fills.at(-1)?.itemId)?.windowMinutes ?? 0;
  if (windowMinutes === 0) return null;
  // how long it has been in is not known, so neither is what would be cut
  if (cavity.fills.some(({ endedAt, additives }) => endedAt === null && additives.length > 0)) return null;
  const from = Math.max(plusMinutes(due.dueAt, -windowMinutes), staysUntil(cavity) ?? 0);
  const to = plusMinutes(due.dueAt, windowMinutes);
  return from > to ? null : { from, to };
}
