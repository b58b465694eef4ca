import { type StayEmpty, stayEmptyWords } from '@slackwater/domain/prescription/stay-empty';
import { useBedside } from '../bedside-context.ts';
import styles from '../prepare/mismatch.module.css';

/** A fill against an order to stay empty says so for as long as it is prepared. */
export const DespiteNote = ({ order, reason }: { order: StayEmpty; reason?: string | undefined }) => {
  const { clock } = useBedside();
  return (
    <p className={styles.against} role="note">
      <b>By order: {stayEmptyWords(order, { state: 'empty' }, clock)}. Going on all the same.</b>{' '}
      {reason && `“${reason}” `}Does whoever waits for the patient know?
    </p>
  );
};
