import type { BedsideState, Due } from '../bedside/state.ts';
import { bagFor } from '../prescription/bag-for.ts';
import { stayEmptyOf } from '../prescription/stay-empty.ts';
import { type EpochMs, HOUR_MS, plusMinutes } from '../time/instant.ts';
import { lastOccurrence, nextOccurrence } from '../time/zone.ts';
import type { WardPolicy } from '../ward/policy.ts';
import { withMargins } from './margins.ts';

/**
 * When an empty cavity is to be filled, or its hold reviewed. It falls due and overdue like a drain, so that nobody is
 * forgotten empty: the "until" of an order to stay empty, else the next item's clock time, else some minutes after the
 * drain.
 * @returns null when no fill is prescribed.
 */
export function dueFill(state: BedsideState, policy: WardPolicy): Due | null {
  const { settings } = policy;
  if (state.hold) {
    const review = { what: 'review', dueAt: state.hold.reviewBy, rule: 'holdReview', ask: false } as const;
    return withMargins(state.hold.since, review, settings);
  }
  const bag = bagFor(state, policy);
  if (bag === null) return null;
  const stayEmpty = stayEmptyOf(state);
  if (stayEmpty !== null) {
    const { until } = stayEmpty;
    return withMargins(state.cavity.since, { what: 'fill', dueAt: until, rule: 'orderUntil', ask: false }, settings);
  }

  const from = Math.max(state.cavity.since, state.keptEmptyUntil ?? 0, allowedSince(state, bag.orderId));
  const start = bag.orderId === null ? itemStart(state, bag.itemId, from, policy) : null;
  const due =
    start === null
      ? ({ dueAt: plusMinutes(from, settings.fillAfterDrainMinutes), rule: 'afterDrain' } as const)
      : ({ dueAt: start, rule: 'nextItem' } as const);
  return withMargins(from, { what: 'fill', ask: false, ...due }, settings);
}

/** From when the fill was allowed at all: the order, or the first prescription, may be younger than the empty cavity. */
function allowedSince(state: BedsideState, orderId: string | null): EpochMs {
  if (orderId !== null) return state.orders.find((order) => order.id === orderId)?.givenAt ?? 0;
  // Only the first fill of all: a later revision does not put off a fill that is owed.
  return state.lastItemId === null ? (state.prescription?.prescribedAt ?? 0) : 0;
}

/**
 * The next item's clock time: its next occurrence, unless the last one passed only so few hours ago that this very
 * exchange is late; then it is owed now and the minutes after the drain apply.
 */
function itemStart(state: BedsideState, itemId: string | null, from: EpochMs, policy: WardPolicy): EpochMs | null {
  const item = state.prescription?.items.find((one) => one.id === itemId);
  if (item?.dwell.by !== 'clock') return null;
  const { at } = item.dwell;
  const late = from - lastOccurrence(at, from, policy.zone) <= policy.settings.clockFarHours * HOUR_MS;
  return late ? null : nextOccurrence(at, from, policy.zone);
}
