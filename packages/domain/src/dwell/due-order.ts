import type { BedsideState } from '../bedside/state.ts';
import type { Order } from '../prescription/prescription.ts';
import { type EpochMs, plusMinutes } from '../time/instant.ts';
import type { Planned } from './due-item.ts';

/** Orders change the dwell inside when they were given: after its fill began and before its drain began. */
export function byOrder(
  state: BedsideState,
  { began, from }: { began: EpochMs; from: EpochMs },
  planned: Planned | null,
): Planned | null {
  const drainBegan = (state.openDwell ?? state.lastDwells[0])?.drains.at(-1)?.startedAt ?? null;
  let result = planned;
  for (const order of state.orders) {
    if (order.endedAt !== null) continue;
    const isOfThisDwell = order.givenAt >= began && (drainBegan === null || order.givenAt > drainBegan);
    const dueAt = dueByOrder(order, { began, from, planned: result, isOfThisDwell });
    if (dueAt !== null) result = { dueAt, rule: 'order', ask: false };
  }
  return result;
}

/** The new due instant that one order gives, or null when it changes nothing. A later order has the last word. */
function dueByOrder(
  { content, givenAt }: Order,
  dwell: { began: EpochMs; from: EpochMs; planned: Planned | null; isOfThisDwell: boolean },
): EpochMs | null {
  const { began, from, planned, isOfThisDwell } = dwell;
  const noLaterThan = (at: EpochMs) => (planned === null || at < planned.dueAt ? at : null);
  switch (content.what) {
    case 'drainNow':
    case 'partialDrain':
      return isOfThisDwell ? noLaterThan(givenAt) : null;
    case 'dueAt':
      return isOfThisDwell ? content.dueAt : null;
    case 'drainAndStayEmpty':
      // A fill begun after that time is the one that ended the order's empty hours.
      return began < content.drainBy ? noLaterThan(content.drainBy) : null;
    case 'sample':
      return noLaterThan(Math.max(givenAt, plusMinutes(from, content.dwellMinutes)));
    case 'rinse':
    case 'oneExchange':
      return null;
  }
}
