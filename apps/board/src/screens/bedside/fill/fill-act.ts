import type { BagInHand, DespiteOrder, EpochMs, Override } from '@slackwater/domain';
import type { NextBag } from '@slackwater/domain/prescription/bag-for';
import { type Act, act } from '../model/batch.ts';

type FillStart = {
  bag: BagInHand;
  wanted: NextBag;
  /** mL that are to run in from this bag. */
  prescribedMl: number;
  flushMl: number;
  guardOverride: Override | null;
  /** With a bag that its check stops and that was not let through with the preparation. */
  bagOverride?: Override | null;
  /** Against an order to stay empty that was not passed with the preparation. */
  despite?: DespiteOrder | null;
  at: EpochMs;
  /** The id that a second person's check is bound to. */
  id?: string;
};

/** What "fill has started" says: the bag on the pole, what it stands for, seal and flush. */
export const startFillAct = ({
  bag,
  wanted,
  prescribedMl,
  flushMl,
  guardOverride,
  bagOverride,
  despite,
  at,
  id,
}: FillStart): Act => ({
  ...act(
    'startFill',
    {
      bag,
      revisionId: wanted.revisionId,
      itemId: wanted.itemId,
      orderId: wanted.orderId,
      prescribedMl,
      additives: wanted.additives,
      flushMl,
      sealBroken: true,
      noLeak: true,
      guardOverride,
      ...(bagOverride && { bagOverride }),
      ...(despite && { despiteOrder: despite }),
    },
    at,
  ),
  ...(id === undefined ? {} : { id }),
});
