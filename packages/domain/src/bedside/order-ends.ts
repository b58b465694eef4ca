import type { Dwell } from '../dwell/dwell.ts';
import type { Order } from '../prescription/prescription.ts';
import type { EpochMs } from '../time/instant.ts';
import type { BedsideState, Visit } from './state.ts';

/** Ends the orders for which `carriedOut` holds; one by telephone stays until it is countersigned. */
export function endOrders(state: BedsideState, endedAt: EpochMs, carriedOut: (order: Order) => boolean): BedsideState {
  const ended = state.orders.filter(carriedOut);
  if (ended.length === 0) return state;
  const unsigned = ended.filter((order) => order.telephone !== null && order.countersignedBy === null);
  return {
    ...state,
    orders: state.orders.filter((order) => !ended.includes(order)),
    awaitingCountersign: [...state.awaitingCountersign, ...unsigned.map((order) => ({ ...order, endedAt }))],
  };
}

/** A drain carries out what was ordered about this dwell before it began, and ends the one exchange that was ordered. */
export function ordersAfterDrain(state: BedsideState, dwell: Dwell | null, endedAt: EpochMs): BedsideState {
  const drainStartedAt = dwell?.drains.at(-1)?.startedAt;
  if (dwell === null || drainStartedAt === undefined) return state;
  return endOrders(state, endedAt, ({ id, content, givenAt }) => {
    switch (content.what) {
      case 'drainNow':
      case 'dueAt':
      case 'partialDrain':
      case 'sample':
        return givenAt <= drainStartedAt;
      case 'oneExchange':
        return dwell.fills.some((fill) => fill.orderId === id);
      case 'rinse':
      case 'drainAndStayEmpty':
        return false;
    }
  });
}

/** A fill begun after the ordered drain ends the empty hours. */
export const ordersAtFill = (state: BedsideState, startedAt: EpochMs): BedsideState =>
  endOrders(state, startedAt, ({ content }) => content.what === 'drainAndStayEmpty' && startedAt >= content.drainBy);

/** A rinse is done when the visit that was made for it is closed. */
export const ordersAfterVisit = (state: BedsideState, visit: Visit, closedAt: EpochMs): BedsideState =>
  endOrders(state, closedAt, ({ id, content }) => content.what === 'rinse' && id === visit.orderId);
