import type { Due } from '../bedside/state.ts';
import { nextItem } from '../prescription/next-item.ts';
import type { DwellRule, PrescriptionItem, PrescriptionRevision } from '../prescription/prescription.ts';
import { type EpochMs, HOUR_MS, plusMinutes } from '../time/instant.ts';
import { clockMinutesApart, nearestOccurrence } from '../time/zone.ts';
import type { WardPolicy } from '../ward/policy.ts';

/** A due instant before orders and margins. */
export type Planned = Pick<Due, 'dueAt' | 'rule' | 'ask'>;

/** When a fill that ended at `from` is to be drained, by its item of the prescription alone. */
export function byItem(
  revision: PrescriptionRevision,
  item: PrescriptionItem,
  from: EpochMs,
  policy: WardPolicy,
): Planned {
  const { dwell } = item;
  if (dwell.by === 'length') return { dueAt: plusMinutes(from, dwell.dwellMinutes), rule: 'length', ask: false };
  if (dwell.by === 'cycle') return { dueAt: plusMinutes(from, dwell.dwellMinutes), rule: 'cycle', ask: false };
  const next = nextItem(revision, item.id)?.dwell ?? dwell;
  // A day that mixes rules: the item after a clock item has no clock time to dwell to, so it is one day alone.
  return byClock(dwell.at, next.by === 'clock' ? next.at : dwell.at, from, policy);
}

/**
 * By clock: the occurrence of the next item's time nearest to the end of the fill + nominal dwell, but not sooner than
 * the ward's shortest dwell after a late fill, and not more than some hours beyond the nominal dwell.
 */
function byClock(filledAtClock: string, drainAtClock: string, from: EpochMs, policy: WardPolicy): Planned {
  const { settings, zone } = policy;
  const nominalMinutes = clockMinutesApart(filledAtClock, drainAtClock);
  const nominalAt = plusMinutes(from, nominalMinutes);
  const occurrence = nearestOccurrence(drainAtClock, nominalAt, zone);
  if (occurrence - nominalAt > settings.clockFarHours * HOUR_MS) {
    return { dueAt: nominalAt, rule: 'clockFar', ask: true };
  }
  const earliest = plusMinutes(from, Math.min(nominalMinutes, settings.clockMinimumMinutes));
  return occurrence >= earliest
    ? { dueAt: occurrence, rule: 'clock', ask: false }
    : { dueAt: earliest, rule: 'clockMinimum', ask: false };
}

/**
 * Fluid that no item of the prescription put there (handed over, or before the first prescription): it is not left
 * without a time. It falls due after the shortest dwell that is prescribed, and the nurse is asked.
 */
export function withoutItem(revision: PrescriptionRevision, from: EpochMs, policy: WardPolicy): Planned | null {
  const planned = revision.items.map((item) => byItem(revision, item, from, policy).dueAt);
  if (planned.length === 0) return null;
  const rule = RULE_OF[revision.items[0]!.dwell.by];
  return { dueAt: Math.min(...planned), rule, ask: true };
}

const RULE_OF: Record<DwellRule['by'], Due['rule']> = { length: 'length', clock: 'clock', cycle: 'cycle' };
