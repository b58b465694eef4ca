import type { BoardRow } from '@slackwater/domain';
import type { EpochMs } from '@slackwater/domain/time/instant';
import { useState } from 'react';
import { useEachMinute } from '../../live/now.ts';
import { NOTHING, type Order, orderAt } from './order.ts';

/** Puts the rows in order once for each pair of rows and minute, however often it is asked. */
const createKeeper = () => {
  let of: { rows: readonly BoardRow[]; now: EpochMs; order: Order } | null = null;
  return (rows: readonly BoardRow[], now: EpochMs): Order => {
    if (of?.rows !== rows || of.now !== now) of = { rows, now, order: orderAt(rows, now, of?.order ?? NOTHING) };
    return of.order;
  };
};

/**
 * The board in order, looked at each minute.
 *
 * @param frozenAt set while nothing is heard: the order stays as it was then, since nobody knows what happened after
 */
export const useOrder = (rows: readonly BoardRow[], frozenAt: EpochMs | null): Order => {
  const [keep] = useState(createKeeper);
  return useEachMinute((now) => keep(rows, frozenAt ?? now));
};
