import type { NextBag } from '@slackwater/domain/prescription/bag-for';
import { dateAt } from '@slackwater/domain/time/zone';
import { formatDate } from '@slackwater/domain/words/numbers';
import { Link } from 'react-router';
import { serverClock } from '../../../api/clock.ts';
import { paths } from '../../../paths.ts';
import { useBedside } from '../bedside-context.ts';
import styles from './mismatch.module.css';

/**
 * The choice that the physician left to the bedside, in the physician's words, with the newest weight beside it. Which
 * bag follows the person at the bed decides, not the tool.
 */
export const PrescribedCondition = ({ wanted }: { wanted: NextBag }) => {
  const { state, patientId } = useBedside();
  const item = wanted.orderId === null ? state.prescription?.items.find(({ id }) => id === wanted.itemId) : undefined;
  if (item?.condition == null) return null;
  return (
    <p className={styles.against} role="note">
      <b>The prescription says: “{item.condition}”.</b> <NewestWeight />{' '}
      <Link to={paths.observations(patientId)}>Weigh, and keep it</Link>. This tool does not decide it; another bag than
      the one proposed goes by an order.
    </p>
  );
};

const NewestWeight = () => {
  const { state, ward, clock } = useBedside();
  const { weight } = state;
  if (weight === null) return <>No weight is recorded.</>;
  const isToday = dateAt(weight.at, ward.zone) === dateAt(serverClock.now(), ward.zone);
  return (
    <>
      Newest weight: <b className={styles.figure}>{weight.weightKg} kg</b>, cavity {weight.cavity},{' '}
      {isToday ? 'today' : formatDate(weight.at, ward.zone)} {clock(weight.at)}.
    </>
  );
};
