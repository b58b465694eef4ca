import type { AlertRank } from '@slackwater/domain';
import { cx } from './class-names.ts';
import styles from './mark.module.css';

/** The rank of an alert by shape before colour: filled diamond, outlined triangle, small ring. */
export const Mark = ({ rank, className }: { rank: AlertRank; className?: string | undefined }) => (
  <svg className={cx(styles.mark, className)} viewBox="0 0 18 18" aria-hidden="true">
    {rank === 'high' && (
      <>
        <path className={styles.high} d="M9 0.6 17.4 9 9 17.4 0.6 9Z" />
        <path className={styles.stroke} d="M9 4.6V10M9 12v1.6" />
      </>
    )}
    {rank === 'medium' && (
      <>
        <path className={styles.mediumCase} d="M9 2.4 16.2 15H1.8Z" />
        <path className={styles.medium} d="M9 2.4 16.2 15H1.8Z" />
      </>
    )}
    {rank === 'low' && (
      <>
        <circle className={styles.lowCase} cx="9" cy="9" r="4.6" />
        <circle className={styles.low} cx="9" cy="9" r="4.6" />
      </>
    )}
  </svg>
);
