import type { BedsideState } from '../bedside/state.ts';
import { byItem } from '../dwell/due-item.ts';
import { nextItem } from '../prescription/next-item.ts';
import type { PrescriptionItem } from '../prescription/prescription.ts';
import { type EpochMs, HOUR_MS, plusMinutes } from '../time/instant.ts';
import type { WardPolicy } from './policy.ts';

const AHEAD_MS = 8 * HOUR_MS;

/**
 * The drains that follow the one that is due, as the prescription has them: a plan for the board, not due times. Between
 * a drain's start and the end of the next fill lies what the ward allows for a fill after a drain; in a cycle its own
 * drain and fill minutes. None under a hold. At most eight hours ahead.
 */
export function laterDrainsAt(state: BedsideState, policy: WardPolicy): readonly EpochMs[] {
  const revision = state.prescription;
  const start = firstFill(state);
  if (revision === null || start === null || state.hold !== null || state.discontinuedAt !== null) return [];
  const drains: EpochMs[] = [];
  let { item, fillFrom } = start;
  while (item !== null) {
    const drainAt = byItem(revision, item, fillFrom, policy).dueAt;
    // A rule that does not move on (a cycle of no length) ends the plan.
    if (drainAt > start.from + AHEAD_MS || drainAt <= fillFrom) break;
    drains.push(drainAt);
    item = nextItem(revision, item.id);
    fillFrom = item === null ? drainAt : plusMinutes(drainAt, betweenMinutes(item, policy));
  }
  return drains;

  function firstFill({ due, visit, lastItemId }: BedsideState) {
    if (revision === null) return null;
    if (visit?.state === 'filling') {
      const item = revision.items.find((one) => one.id === visit.itemId) ?? null;
      return { from: visit.since, item, fillFrom: visit.since };
    }
    const next = nextItem(revision, lastItemId);
    const drainFrom = due?.what === 'drain' ? due.dueAt : visit?.state === 'draining' ? visit.since : null;
    if (drainFrom !== null && next !== null) {
      return { from: drainFrom, item: next, fillFrom: plusMinutes(drainFrom, betweenMinutes(next, policy)) };
    }
    const fillFrom = due?.what === 'fill' ? due.dueAt : visit?.state === 'drained' ? visit.since : null;
    return fillFrom === null ? null : { from: fillFrom, item: next, fillFrom };
  }
}

const betweenMinutes = ({ dwell }: PrescriptionItem, { settings }: WardPolicy): number =>
  dwell.by === 'cycle' ? dwell.drainMinutes + dwell.fillMinutes : settings.fillAfterDrainMinutes;
