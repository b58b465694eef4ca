import type { BagInHand, Override } from '@slackwater/domain';
import type { NextBag } from '@slackwater/domain/prescription/bag-for';
import { type BagRow, stops } from '@slackwater/domain/solution/bag-check';
import { solutionOf } from '@slackwater/domain/solution/formulary';
import { formatDate, formatMl } from '@slackwater/domain/words/numbers';
import { useState } from 'react';
import { Button } from '../../../ui/button.tsx';
import { useBedside } from '../bedside-context.ts';
import { Acts } from '../shared/acts.tsx';
import { BagOverride } from './bag-override.tsx';
import styles from './mismatch.module.css';
import { TelephoneBag } from './telephone-bag.tsx';

type MismatchProps = {
  rows: readonly BagRow[];
  bag: BagInHand;
  wanted: NextBag;
  onOtherBag: () => void;
  onOverride: (override: Override) => void;
};

/** The bag is not the prescribed one: the way on is closed and says why; three ways round, each leaves a trace. */
export const Mismatch = ({ rows, bag, wanted, onOtherBag, onOverride }: MismatchProps) => {
  const { state, policy, clock, ward, mayDo } = useBedside();
  const [asking, setAsking] = useState<'order' | 'override' | null>(null);
  const wrong = rows.find(stops);
  if (!wrong) return null;
  const strength = solutionOf(policy.formulary, bag.solutionId)?.strength ?? bag.solutionId;
  const since = state.prescription
    ? `Revision ${state.prescription.number}, since ${formatDate(state.prescription.prescribedAt, ward.zone)} ${clock(state.prescription.prescribedAt)}.`
    : '';
  const title =
    wrong.verdict === 'expired'
      ? `Expired ${wrong.inHand}.`
      : wrong.verdict === 'recalled'
        ? `Lot ${wrong.inHand} is recalled: ${wrong.say}.`
        : wrong.check === 'volume'
          ? `${wrong.inHand} in hand, ${wrong.wanted} prescribed.`
          : `${strength} in hand, ${solutionOf(policy.formulary, wanted.solutionId)?.strength ?? wanted.solutionId} prescribed.`;
  const isExpired = rows.some((row) => row.verdict === 'expired');
  const isRecalled = rows.some((row) => row.verdict === 'recalled');
  // No order makes an expired or a recalled bag the right one.
  const orderable = !isExpired && !isRecalled;
  return (
    <>
      <p className={styles.said} role="alert">
        <b>{title}</b>
        {wanted.orderId ? 'By the order in force.' : since} The bag just read counts as not used.
      </p>
      <ul className={styles.ways}>
        {orderable && (
          <li>
            <Button
              tone="text"
              onPress={() => setAsking('order')}
              disabledBecause={mayDo('telephoneOrder') ? null : 'only a nurse takes an order by telephone'}
            >
              An order allows {formatMl(Math.min(bag.labelledMl, wanted.fillMl))} of {strength} for this exchange
            </Button>
            <br />
            <span>Needs the physician’s name and that it was read back; it then stands above the prescription.</span>
          </li>
        )}
        <li>
          <Button tone="text" onPress={onOtherBag}>
            The label was read wrong: read it again
          </Button>
        </li>
        {!isExpired && (
          <li>
            <Button
              tone="text"
              onPress={() => setAsking('override')}
              disabledBecause={
                isRecalled && !mayDo('overrideGuard') ? 'a charge nurse or a nephrologist, with a reason' : null
              }
            >
              Use it all the same
            </Button>
            <br />
            <span>With a reason, and by whose word.</span>
          </li>
        )}
      </ul>
      <Acts>
        <Button tone="main" onPress={onOtherBag}>
          Read another bag
        </Button>
        <Button disabledBecause="not with this bag">Go to connect</Button>
      </Acts>
      {asking === 'order' && <TelephoneBag bag={bag} wanted={wanted} onClose={() => setAsking(null)} />}
      {asking === 'override' && (
        <BagOverride
          title={title}
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

/** A bag larger than the fill is right, if the fill is stopped in time: said large. */
export const LargerBag = ({ rows }: { rows: readonly BagRow[] }) => {
  const larger = rows.find((row) => row.verdict === 'larger');
  if (!larger) return null;
  return (
    <p className={styles.larger}>
      <b>{larger.say}</b> {larger.inHand} in the bag, {larger.wanted} prescribed.
    </p>
  );
};
