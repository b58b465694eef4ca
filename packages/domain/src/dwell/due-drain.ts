import type { BedsideState, Due } from '../bedside/state.ts';
import type { FillInside } from '../cavity/cavity.ts';
import type { Order } from '../prescription/prescription.ts';
import { type EpochMs, plusMinutes } from '../time/instant.ts';
import type { WardPolicy } from '../ward/policy.ts';
import { byItem, type Planned, withoutItem } from './due-item.ts';
import { byOrder } from './due-order.ts';
import { withMargins } from './margins.ts';

/**
 * When the fluid inside is to be drained: what the prescription says, unless an order changed it. A new revision does
 * not touch the dwell inside; hold and discontinue never stop a drain.
 * @returns null when nobody has said how long this fluid is to dwell.
 */
export function dueDrain(state: BedsideState, policy: WardPolicy): Due | null {
  const fills = state.cavity.state === 'holding' ? state.cavity.fills : [];
  const began = fills[0]?.startedAt ?? fills[0]?.endedAt ?? state.cavity.since;
  const filledAt = fills.at(-1)?.endedAt ?? state.cavity.since;
  const leftAt = leftBehindAt(state, began);
  const planned = notBefore(leftAt, byPrescription(state, fills.at(-1), filledAt, policy), policy);
  const from = planned?.rule === 'afterDrain' && leftAt !== null ? leftAt : filledAt;
  const ordered = byOrder(state, { began, from }, planned);
  return ordered && withMargins(from, { what: 'drain', ...ordered }, policy.settings);
}

/** When a drain of this fluid ended that did not empty the cavity; null when it was not drained yet. */
function leftBehindAt(state: BedsideState, began: EpochMs): EpochMs | null {
  const drain = (state.openDwell ?? state.lastDwells[0])?.drains.at(-1);
  return drain !== undefined && drain.startedAt >= began ? drain.endedAt : null;
}

/**
 * What a drain left behind is not overdue the moment the nurse leaves: it is due by the prescription or, if that has
 * passed, so long after that drain as an empty cavity is to be filled: drain again, or say that it is empty.
 */
function notBefore(leftAt: EpochMs | null, planned: Planned | null, { settings }: WardPolicy): Planned | null {
  if (leftAt === null) return planned;
  const again = plusMinutes(leftAt, settings.fillAfterDrainMinutes);
  return planned !== null && planned.dueAt > again ? planned : { dueAt: again, rule: 'afterDrain', ask: false };
}

function byPrescription(
  state: BedsideState,
  fill: FillInside | undefined,
  from: EpochMs,
  policy: WardPolicy,
): Planned | null {
  const order = fill?.orderId ? state.orders.find((given) => given.id === fill.orderId) : undefined;
  const ordered = order && dwellOfOrder(order);
  if (ordered != null) return { dueAt: plusMinutes(from, ordered), rule: 'order', ask: false };

  const revision = state.revisionInside ?? state.prescription;
  const item = revision?.items.find((one) => one.id === fill?.itemId);
  if (revision && item) return byItem(revision, item, from, policy);
  return state.prescription && withoutItem(state.prescription, from, policy);
}

/** Minutes that a fill given by an order is to dwell; null = as the item it stands for. */
function dwellOfOrder({ content }: Order): number | null {
  if (content.what === 'rinse') return 0;
  return content.what === 'oneExchange' ? content.dwellMinutes : null;
}
