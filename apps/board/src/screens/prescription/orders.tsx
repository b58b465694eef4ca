import type { Order } from '@slackwater/domain';
import { formatDate } from '@slackwater/domain/words/numbers';
import { useState } from 'react';
import { serverClock } from '../../api/clock.ts';
import { useDraft } from '../../drafts/use-draft.ts';
import { Button } from '../../ui/button.tsx';
import { Field } from '../../ui/field.tsx';
import { act } from '../bedside/model/batch.ts';
import { FormDialog } from '../bedside/shared/form-dialog.tsx';
import type { PatientContext } from '../bedside/shared/use-patient.ts';
import type { Recorder } from '../bedside/shared/use-record.ts';
import { orderWords } from '../patient-record/words/entry-words.ts';
import { AwayForm } from './away-form.tsx';
import { OrderForm } from './order-form.tsx';
import styles from './prescription.module.css';

type OrdersProps = {
  patient: PatientContext;
  recorder: Recorder;
  orders: readonly Order[];
  names: Readonly<Record<string, string>>;
};

/** One-off orders: open ones first, with who gave them, by telephone or not, and what still has to be done to them. */
export const Orders = ({ patient, recorder, orders, names }: OrdersProps) => {
  const { mayDo, policy, clock, ward } = patient;
  const [giving, setGiving] = useState(false);
  const [planning, setPlanning] = useState(false);
  const [ending, setEnding] = useState<Order | null>(null);
  const open = orders.filter((order) => order.endedAt === null);
  const ended = orders.filter((order) => order.endedAt !== null).slice(0, 5);
  const countersign = (order: Order) =>
    void recorder.record([act('countersigned', { orderId: order.id }, serverClock.now())], null);
  const words = (order: Order) => orderWords(order.content, { clock, formulary: policy.formulary });
  const by = (order: Order) =>
    `${formatDate(order.givenAt, ward.zone)} ${clock(order.givenAt)}, ${order.telephone ? `${order.telephone.physician} by telephone, taken by ${names[order.givenBy ?? ''] ?? 'a nurse'}` : (names[order.givenBy ?? ''] ?? '')}`;
  return (
    <section aria-labelledby="orders">
      <h2 id="orders">Orders</h2>
      {open.length === 0 && <p className="quiet">None is open.</p>}
      {open.map((order) => (
        <div key={order.id} className={styles.order}>
          <p>
            <b>{words(order)}</b>
            {order.note && `. ${order.note}`}
          </p>
          <p className="quiet">{by(order)}</p>
          {order.telephone && order.countersignedBy === null && order.countersignBy !== null && (
            <p>
              To be countersigned by <b>{clock(order.countersignBy)}</b>, {formatDate(order.countersignBy, ward.zone)}
            </p>
          )}
          {order.countersignedBy !== null && (
            <p className="quiet">Countersigned by {names[order.countersignedBy] ?? 'a physician'}</p>
          )}
          <div className={styles.row}>
            {order.telephone && order.countersignedBy === null && (
              <Button onPress={() => countersign(order)} disabledBecause={mayDo('prescribe') ? null : 'the physician'}>
                Countersign
              </Button>
            )}
            <Button tone="text" onPress={() => setEnding(order)}>
              End it<span className="sr">: {words(order)}</span>
            </Button>
          </div>
        </div>
      ))}
      {ended.map((order) => (
        <p key={order.id} className="quiet">
          {words(order)}, ended {order.endedAt !== null && clock(order.endedAt)}
          {order.telephone && order.countersignedBy === null && mayDo('prescribe') && (
            <Button tone="text" onPress={() => countersign(order)}>
              Countersign
            </Button>
          )}
        </p>
      ))}
      <div className={styles.row}>
        <Button
          onPress={() => setGiving(true)}
          disabledBecause={mayDo('prescribe') || mayDo('telephoneOrder') ? null : 'not in your role'}
        >
          {mayDo('prescribe') ? 'New order' : 'Order by telephone'}
        </Button>
        <Button
          onPress={() => setPlanning(true)}
          disabledBecause={mayDo('prescribe') || mayDo('telephoneOrder') ? null : 'not in your role'}
        >
          Theatre or imaging
        </Button>
      </div>
      {giving && <OrderForm patient={patient} recorder={recorder} onClose={() => setGiving(false)} />}
      {planning && <AwayForm patient={patient} recorder={recorder} onClose={() => setPlanning(false)} />}
      {ending && <EndOrder order={ending} recorder={recorder} words={words(ending)} onClose={() => setEnding(null)} />}
    </section>
  );
};

type EndOrderProps = { order: Order; recorder: Recorder; words: string; onClose: () => void };

const EndOrder = ({ order, recorder, words, onClose }: EndOrderProps) => {
  const [reason, setReason, forget] = useDraft(`end-order:${order.id}`, '');
  const end = async (why: 'done' | 'withdrawn') => {
    const payload = { orderId: order.id, why, reason: reason.trim() || null };
    if (await recorder.record([act('orderEnded', payload, serverClock.now())], null)) {
      forget();
      onClose();
    }
  };
  return (
    <FormDialog
      title={`End the order: ${words}`}
      action="It was carried out"
      disabledBecause={recorder.sending ? 'being sent' : null}
      onAct={() => void end('done')}
      onClose={onClose}
    >
      <Field label="Reason, for a withdrawal" value={reason} onChange={setReason} maxLength={500} />
      <Button
        tone="firm"
        onPress={() => void end('withdrawn')}
        disabledBecause={reason.trim() === '' ? 'the reason is missing' : null}
      >
        Withdraw it
      </Button>
    </FormDialog>
  );
};
