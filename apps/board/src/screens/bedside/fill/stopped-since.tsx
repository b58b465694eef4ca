import type { BagInHand, EpochMs, Override, WardPolicy } from '@slackwater/domain';
import type { NextBag } from '@slackwater/domain/prescription/bag-for';
import { type BagRow, checkBag, stops } from '@slackwater/domain/solution/bag-check';
import { useState } from 'react';
import { Button } from '../../../ui/button.tsx';
import { useBedside } from '../bedside-context.ts';
import { BagOverride } from '../prepare/bag-override.tsx';
import mismatchStyles from '../prepare/mismatch.module.css';

/** What stops the bag on the pole now and did not when it was checked: its expiry at midnight, a recall since. */
export const stopsSince = (
  bag: BagInHand,
  wanted: NextBag,
  policy: WardPolicy,
  when: { checkedAt: EpochMs; now: EpochMs },
): readonly BagRow[] => {
  const stopsAt = (at: EpochMs) =>
    checkBag(bag, wanted, policy, at).filter((row) => stops(row) && (row.check === 'expiry' || row.check === 'lot'));
  const then = stopsAt(when.checkedAt);
  return stopsAt(when.now).filter((row) => !then.some(({ verdict }) => verdict === row.verdict));
};

type UseAllTheSameProps = { why: string; onOverride: (override: Override) => void };

/** A bag that its check stops during a visit: another one is the way; going on leaves a trace. */
export const UseAllTheSame = ({ why, onOverride }: UseAllTheSameProps) => {
  const { mayDo } = useBedside();
  const [asking, setAsking] = useState(false);
  return (
    <>
      <p className={mismatchStyles.said} role="alert">
        <b>{why}</b>
        Not with this bag: take another one, or close without a fill.
      </p>
      <ul className={mismatchStyles.ways}>
        <li>
          <Button
            tone="text"
            onPress={() => setAsking(true)}
            disabledBecause={mayDo('overrideGuard') ? null : 'a charge nurse or a nephrologist, with a reason'}
          >
            Use it all the same
          </Button>
          <br />
          <span>Local policy comes first. Who decided and why stands in the record and in the audit.</span>
        </li>
      </ul>
      {asking && (
        <BagOverride
          title={why}
          onClose={() => setAsking(false)}
          onOverride={(override) => {
            setAsking(false);
            onOverride(override);
          }}
        />
      )}
    </>
  );
};
