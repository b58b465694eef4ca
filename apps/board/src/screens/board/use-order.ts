import type { EpochMs } from '@slackwater/domain';
import { useState } from 'react';
import { asTheClockSays, useEachMinute } from '../../live/now.ts';
import type { AnyRow } from './moment.ts';
import { type Order, orderAt } from './order.ts';

/** Puts the rows in order once for each pair of rows and minute, however often it is asked. */
const createKeeper = <Row extends AnyRow>() => {
  let of: { rows: readonly Row[]; now: EpochMs; order: Order<Row> } | null = null;
  return (rows: readonly Row[], now: EpochMs): Order<Row> => {
    if (of?.rows !== rows || of.now !== now) of = { rows, now, order: orderAt(rows, now, of?.order ?? null) };
    return of.order;
  };
};

/**
 * The board in order, looked at each minute.
 *
 * @param frozenAt set while nothing is heard: the order stays as it was then, since nobody knows what happened after
 */
export const useOrder = <Row extends AnyRow>(rows: readonly Row[], frozenAt: EpochMs | null): Order<Row> => {
  const [keep] = useState(() => createKeeper<Row>());
  return useEachMinute((now) => keep(rows, frozenAt ?? asTheClockSays(now)));
};
