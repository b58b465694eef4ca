import type { BedsideState } from '../bedside/state.ts';
import type { Additive } from '../prescription/additive.ts';

/** What was prescribed or ordered for the bag that a step names; null when neither is in force. */
export type Wanted = { solutionId: string; fillMl: number; additives: readonly Additive[] };

type Named = { revisionId: string | null; itemId: string | null; orderId: string | null };

/** An open order wins over the item: one exchange of another strength names the item in whose place it stands. */
export function wantedBy(state: BedsideState, named: Named): Wanted | null {
  if (named.orderId !== null) return orderedBag(state, named.orderId);
  const { prescription } = state;
  if (prescription === null || state.discontinuedAt !== null || named.revisionId !== prescription.id) return null;
  return prescription.items.find((item) => item.id === named.itemId) ?? null;
}

function orderedBag(state: BedsideState, orderId: string): Wanted | null {
  const content = state.orders.find((order) => order.id === orderId)?.content;
  if (content?.what === 'oneExchange') return content;
  return content?.what === 'rinse' ? { solutionId: content.solutionId, fillMl: content.volumeMl, additives: [] } : null;
}

/** Why there is nothing to fill, in words. */
export function whyNothingWanted(state: BedsideState, named: Named): string {
  if (named.orderId !== null) return 'That order is not open: check the bag again.';
  if (state.discontinuedAt !== null) return 'The prescription was discontinued: no fill without an order.';
  if (state.prescription === null) return 'Nothing is prescribed: no fill without a prescription or an order.';
  if (named.revisionId !== state.prescription.id) return 'The prescription has a newer revision: check the bag again.';
  return 'The prescription has no such item: check the bag again.';
}
