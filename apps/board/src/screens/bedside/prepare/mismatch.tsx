import type { BagInHand, Override } from '@slackwater/domain';
import type { NextBag } from '@slackwater/domain/prescription/bag-for';
import type { BagRow } from '@slackwater/domain/solution/bag-check';
import { solutionOf } from '@slackwater/domain/solution/formulary';
import { formatDate, formatMl } from '@slackwater/domain/words/numbers';
import { useState } from 'react';
import { Button } from '../../../ui/button.tsx';
import { useBedside } from '../bedside-context.ts';
import { Acts } from '../shared/acts.tsx';
import { ByRole, ByTelephone } from '../shared/ways-round.tsx';
import { BagOverride } from './bag-override.tsx';
import styles from './mismatch.module.css';
import { allStopWords } from './stop-words.ts';
import { TelephoneBag } from './telephone-bag.tsx';

type MismatchProps = {
  rows: readonly BagRow[];
  bag: BagInHand;
  wanted: NextBag;
  onOtherBag: () => void;
  onOverride: (override: Override) => void;
};

/** This bag is not to be used: the way on is closed and says why. Another bag is the way; the ways round leave a trace. */
export const Mismatch = ({ rows, bag, wanted, onOtherBag, onOverride }: MismatchProps) => {
  const { state, policy, clock, ward } = useBedside();
  const [asking, setAsking] = useState<'order' | 'override' | null>(null);
  const why = allStopWords(rows, bag, wanted, policy.formulary);
  if (why === '') return null;
  const strength = solutionOf(policy.formulary, bag.solutionId)?.strength ?? bag.solutionId;
  const since = state.prescription
    ? `Revision ${state.prescription.number}, since ${formatDate(state.prescription.prescribedAt, ward.zone)} ${clock(state.prescription.prescribedAt)}.`
    : '';
  // No order makes an expired or a recalled bag the right one.
  const orderable = !rows.some(({ verdict }) => verdict === 'expired' || verdict === 'recalled');
  return (
    <>
      <p className={styles.said} role="alert">
        <b>{why}</b>
        {orderable && (wanted.orderId ? 'By the order in force.' : since)} The bag just read counts as not used.
      </p>
      <Acts>
        <Button tone="main" onPress={onOtherBag}>
          Take another bag
        </Button>
        <Button disabledBecause="not with this bag">Go to connect</Button>
      </Acts>
      <ul className={styles.ways}>
        <li>
          <Button tone="text" onPress={onOtherBag}>
            The label was read wrong: read it again
          </Button>
        </li>
        {orderable && (
          <ByTelephone
            words={`An order allows ${formatMl(Math.min(bag.labelledMl, wanted.fillMl))} of ${strength} for this exchange`}
            above="the prescription"
            onPress={() => setAsking('order')}
          />
        )}
        <ByRole words="Use it all the same" onPress={() => setAsking('override')} />
      </ul>
      {asking === 'order' && <TelephoneBag bag={bag} wanted={wanted} onClose={() => setAsking(null)} />}
      {asking === 'override' && (
        <BagOverride
          title={why}
          onClose={() => setAsking(null)}
          onOverride={(override) => {
            setAsking(null);
            onOverride(override);
          }}
        />
      )}
    </>
  );
};
