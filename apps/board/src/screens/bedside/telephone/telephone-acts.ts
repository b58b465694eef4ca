import type { EpochMs, Payloads } from '@slackwater/domain';
import type { NextBag } from '@slackwater/domain/prescription/bag-for';
import { type Act, act } from '../model/batch.ts';

/** The order; one that stood before it for the same exchange ends with it, or it would come up at the next. */
export const telephoneActs = (payload: Payloads['ordered'], { orderId }: NextBag, at: EpochMs): readonly Act[] => {
  const by = payload.telephone?.physician ?? '';
  const reason = `Replaced by the order by telephone of ${by}`;
  return [
    act('ordered', payload, at),
    ...(orderId === null ? [] : [act('orderEnded', { orderId, why: 'withdrawn', reason }, at)]),
  ];
};
