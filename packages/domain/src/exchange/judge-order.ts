import { type Judge, refusal } from './judge-types.ts';

export const holdLiftedRule: Judge<'holdLifted'> = (state) =>
  state.hold === null ? [refusal('not-on-hold', 'Fills are not on hold.', 'kind')] : [];

export const discontinuedRule: Judge<'discontinued'> = (state) =>
  state.prescription === null || state.discontinuedAt !== null
    ? [refusal('not-prescribed', 'No prescription is in force.', 'kind')]
    : [];

export const countersignedRule: Judge<'countersigned'> = (state, { payload }) => {
  const order = [...state.orders, ...state.awaitingCountersign].find((one) => one.id === payload.orderId);
  if (order !== undefined && order.telephone !== null && order.countersignedBy === null) return [];
  return [
    refusal(
      'nothing-to-sign',
      'No telephone order of that id waits for a signature.',
      'payload.orderId',
      payload.orderId,
    ),
  ];
};

export const orderEndedRule: Judge<'orderEnded'> = (state, { payload }) =>
  state.orders.some((order) => order.id === payload.orderId)
    ? []
    : [refusal('order-not-open', 'That order is not open.', 'payload.orderId', payload.orderId)];
