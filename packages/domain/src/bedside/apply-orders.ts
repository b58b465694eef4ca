import type { Order } from '../prescription/prescription.ts';
import { stayEmptyOf } from '../prescription/stay-empty.ts';
import { HOUR_MS } from '../time/instant.ts';
import type { Apply } from './apply.ts';
import { endOrders } from './order-ends.ts';

export const applyOrdered: Apply<'ordered'> = (state, entry, policy) => {
  const { content, note, telephone } = entry.payload;
  const order: Order = {
    id: entry.id,
    content,
    note,
    givenAt: entry.happenedAt,
    givenBy: entry.author,
    telephone,
    countersignBy: telephone === null ? null : entry.happenedAt + policy.settings.countersignHours * HOUR_MS,
    countersignedBy: null,
    endedAt: null,
  };
  return { ...state, orders: [...state.orders, order] };
};

export const applyCountersigned: Apply<'countersigned'> = (state, entry) => {
  const { orderId } = entry.payload;
  const signed = (order: Order): Order => (order.id === orderId ? { ...order, countersignedBy: entry.author } : order);
  return {
    ...state,
    orders: state.orders.map(signed),
    awaitingCountersign: state.awaitingCountersign.filter((order) => order.id !== orderId),
  };
};

export const applyOrderEnded: Apply<'orderEnded'> = (state, entry) => {
  const { orderId } = entry.payload;
  const keptEmpty = state.cavity.state === 'empty' && stayEmptyOf(state)?.orderId === orderId;
  const ended = endOrders(state, entry.happenedAt, (order) => order.id === orderId);
  return keptEmpty ? { ...ended, keptEmptyUntil: entry.happenedAt } : ended;
};
