import type { BagRow } from '@slackwater/domain/solution/bag-check';
import styles from './mismatch.module.css';

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

/** A bag that is used against a stop says so for as long as it hangs there. */
export const UsedAllTheSame = ({ why, reason }: { why: string; reason?: string }) => (
  <p className={styles.against} role="note">
    <b>{why} Used all the same.</b> {reason && `“${reason}” `}By local policy only; the physician and the pharmacy can
    say more.
  </p>
);
