import type { DespiteOrder } from '@slackwater/domain';
import { fillAgainst } from '@slackwater/domain/prescription/stay-empty';
import { serverClock } from '../../../api/clock.ts';
import { useDraft } from '../../../drafts/use-draft.ts';
import { useBedside } from '../bedside-context.ts';

/**
 * The order to stay empty that a fill of this visit goes against now, and what was said to go on: with the preparation,
 * or here and not yet in the record.
 * @param orderId the order for a bag that the fill names; null = it goes by the prescription
 */
export const useDespite = (orderId: string | null) => {
  const { state, policy } = useBedside();
  const { visit } = state;
  const [said, goOn] = useDraft<DespiteOrder | null>(`despite:${visit?.id ?? ''}`, null);
  const order = fillAgainst(state, orderId, serverClock.now(), policy.settings);
  const despite = order !== null && said?.orderId === order.orderId ? said : null;
  const isPassed = despite !== null || (order !== null && visit?.despiteOrderId === order.orderId);
  return { order, despite, isStopped: order !== null && !isPassed, goOn };
};
