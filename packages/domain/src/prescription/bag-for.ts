import type { BedsideState } from '../bedside/state.ts';
import type { EpochMs } from '../time/instant.ts';
import { nearestOccurrence } from '../time/zone.ts';
import type { WardPolicy } from '../ward/policy.ts';
import type { Additive } from './additive.ts';
import { nextItem } from './next-item.ts';
import type { Order, PrescriptionItem, PrescriptionRevision } from './prescription.ts';

/** What the next bag should be, and who says so: the order, else item and revision. */
export type NextBag = {
  solutionId: string;
  /** mL to fill. */
  fillMl: number;
  additives: readonly Additive[];
  /** Minutes that it is to dwell; null = by the clock, or as the item that the order stands for. */
  dwellMinutes: number | null;
  revisionId: string | null;
  itemId: string | null;
  orderId: string | null;
};

/**
 * What the next bag should be: an open order wins over the item after the last one.
 * @returns null when further fills are held or discontinued, or nothing is prescribed.
 */
export function bagFor(state: BedsideState, policy: WardPolicy): NextBag | null {
  if (state.hold !== null) return null;
  const [order] = openBagOrders(state);
  if (order) return bagOfOrder(order, state, policy);
  const item = proposedItem(state, policy);
  return item && bagOfItem(item, state.prescription!.id);
}

/** Open orders that name a bag which is not inside yet, oldest first. */
export const openBagOrders = (state: BedsideState): readonly Order[] =>
  state.orders.filter((one) => isBag(one) && !isInside(state, one));

/** The item that the bag check proposes: after the last one; by the clock when that one is not in the revision. */
function proposedItem(state: BedsideState, policy: WardPolicy): PrescriptionItem | null {
  const revision = state.prescription;
  if (revision === null || state.discontinuedAt !== null) return null;
  if (revision.items.some((item) => item.id === state.lastItemId)) return nextItem(revision, state.lastItemId);
  return nearestClockItem(revision, referenceOf(state), policy.zone) ?? nextItem(revision, null);
}

/** About when the next bag is hung: now, if the cavity is empty; else when the drain is due. */
function referenceOf(state: BedsideState): EpochMs {
  const allowed = Math.max(state.cavity.since, state.prescription?.prescribedAt ?? 0);
  return state.cavity.state === 'empty' ? allowed : Math.max(allowed, state.due?.dueAt ?? 0);
}

function nearestClockItem(revision: PrescriptionRevision, at: EpochMs, zone: string): PrescriptionItem | null {
  let nearest: { item: PrescriptionItem; apart: number } | null = null;
  for (const item of revision.items) {
    if (item.dwell.by !== 'clock') return null;
    const apart = Math.abs(nearestOccurrence(item.dwell.at, at, zone) - at);
    if (nearest === null || apart < nearest.apart) nearest = { item, apart };
  }
  return nearest?.item ?? null;
}

const isBag = ({ content, endedAt }: Order): boolean =>
  endedAt === null && (content.what === 'oneExchange' || content.what === 'rinse');

const isInside = ({ cavity }: BedsideState, order: Order): boolean =>
  cavity.state === 'holding' && cavity.fills.some((fill) => fill.orderId === order.id);

function bagOfOrder(order: Order, state: BedsideState, policy: WardPolicy): NextBag | null {
  const { content } = order;
  if (content.what === 'rinse') {
    const { solutionId, volumeMl } = content;
    const none = { additives: [], revisionId: null, itemId: null };
    return { solutionId, fillMl: volumeMl, dwellMinutes: 0, orderId: order.id, ...none };
  }
  if (content.what !== 'oneExchange') return null;
  // One exchange of another strength stands in the place of an item: its dwell, and the item after it, follow from that.
  const item = proposedItem(state, policy);
  return {
    solutionId: content.solutionId,
    fillMl: content.fillMl,
    additives: content.additives,
    dwellMinutes: content.dwellMinutes ?? (item && lengthOf(item)),
    revisionId: item === null ? null : state.prescription!.id,
    itemId: item?.id ?? null,
    orderId: order.id,
  };
}

function bagOfItem(item: PrescriptionItem, revisionId: string): NextBag {
  const { solutionId, fillMl, additives } = item;
  return { solutionId, fillMl, additives, dwellMinutes: lengthOf(item), revisionId, itemId: item.id, orderId: null };
}

const lengthOf = ({ dwell }: PrescriptionItem): number | null => (dwell.by === 'clock' ? null : dwell.dwellMinutes);
