import type { BagInHand, EpochMs, WardPolicy } from '@slackwater/domain';
import { type BagRow, checkBag, stops } from '@slackwater/domain/solution/bag-check';

/** What stops the bag on the pole now and did not when it was checked: its expiry at midnight, a recall since. */
export const stopsSince = (
  bag: BagInHand,
  wanted: { solutionId: string; fillMl: number },
  policy: WardPolicy,
  when: { checkedAt: EpochMs; now: EpochMs },
): readonly BagRow[] => {
  const stopsAt = (at: EpochMs) =>
    checkBag(bag, wanted, policy, at).filter((row) => stops(row) && (row.check === 'expiry' || row.check === 'lot'));
  const then = stopsAt(when.checkedAt);
  return stopsAt(when.now).filter((row) => !then.some(({ verdict }) => verdict === row.verdict));
};
