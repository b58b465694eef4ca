import type { DespiteOrder } from '@slackwater/domain';
import type { NextBag } from '@slackwater/domain/prescription/bag-for';
import { type StayEmpty, stayEmptyWords } from '@slackwater/domain/prescription/stay-empty';
import { type ReactNode, useState } from 'react';
import { Link } from 'react-router';
import { paths } from '../../../paths.ts';
import { Button } from '../../../ui/button.tsx';
import { useBedside } from '../bedside-context.ts';
import styles from '../prepare/mismatch.module.css';
import { TelephoneBag } from '../prepare/telephone-bag.tsx';
import { Acts } from '../shared/acts.tsx';
import { OverrideDialog } from '../shared/override-dialog.tsx';
import { ByRole, ByTelephone } from '../shared/ways-round.tsx';

type OrderedEmptyProps = {
  order: StayEmpty;
  /** What would be filled. */
  wanted: NextBag;
  /** The way that keeps to the order. */
  children: ReactNode;
  onDespite: (despite: DespiteOrder) => void;
};

/** No fill in hours that are ordered empty: the way on is closed before a bag is opened; the ways round leave a trace. */
export const OrderedEmpty = ({ order, wanted, children, onDespite }: OrderedEmptyProps) => {
  const { clock, patientId } = useBedside();
  const [asking, setAsking] = useState<'order' | 'despite' | null>(null);
  const words = stayEmptyWords(order, { state: 'empty' }, clock);
  const close = () => setAsking(null);
  return (
    <>
      <p className={styles.said} role="alert">
        <b>{words}.</b>
        By order{order.away && ` (${order.away.why})`}. No fill goes in before: open no bag.
      </p>
      <Acts>
        {children}
        <Button disabledBecause="ordered to stay empty">Fill</Button>
      </Acts>
      <ul className={styles.ways}>
        <ByTelephone
          words="An order allows this fill"
          above="the order to stay empty"
          onPress={() => setAsking('order')}
        />
        <li>
          <Link to={paths.prescription(patientId)}>The order has ended, or has other times</Link>
          <br />
          <span>Put off, called off, back early: the order itself is changed, with its reason.</span>
        </li>
        <ByRole words="Fill all the same" onPress={() => setAsking('despite')} />
      </ul>
      {asking === 'order' && (
        <TelephoneBag
          bag={{ solutionId: wanted.solutionId, labelledMl: wanted.fillMl }}
          wanted={wanted}
          note={`Although ordered before: ${words.toLowerCase()}.`}
          onClose={close}
        />
      )}
      {asking === 'despite' && (
        <OverrideDialog
          draftKey={`despite-order:${order.orderId}`}
          title={`Fill all the same? By order: ${words}.`}
          act="fill in this visit"
          closeWords="Back, no fill"
          onClose={close}
          onOverride={(override) => {
            close();
            onDespite({ ...override, orderId: order.orderId });
          }}
        >
          <p>
            <b>Fluid inside can put off theatre or imaging, or harm there.</b> Does whoever waits for the patient know?
            This tool judges nothing here: it keeps who decided, when and why.
          </p>
        </OverrideDialog>
      )}
    </>
  );
};
