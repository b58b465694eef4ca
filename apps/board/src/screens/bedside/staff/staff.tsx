import type { ReactNode } from 'react';
import { cx } from '../../../ui/class-names.ts';
import styles from './staff.module.css';
import type { StaffRow } from './staff-rows.ts';

const rowClass = (row: StaffRow, extra?: string) =>
  cx(extra, styles[row.status], row.block === 'reading' && styles.minor, row.noTouch && styles.noTouch);

/** The tide gauge at the left: where the exchange stands, and what each block's record says. */
export const Staff = ({
  title,
  rows,
  children,
}: {
  title: string;
  rows: readonly StaffRow[];
  children?: ReactNode;
}) => (
  <nav className={styles.rail} aria-label="Blocks of this exchange">
    <p className="quiet">{title}</p>
    <ol>
      {rows.map((row) => (
        <li
          key={row.block}
          className={rowClass(row, styles.row)}
          aria-current={row.status === 'here' ? 'step' : undefined}
        >
          <span className={styles.tick} />
          <span className={styles.name}>
            {row.name}
            {row.status === 'done' && <span className="sr">, done</span>}
          </span>
          <span className={styles.said}>{row.said}</span>
        </li>
      ))}
    </ol>
    <div className={styles.foot}>{children}</div>
  </nav>
);

/** The same lying: above the still screens, and on a phone where the gauge has no room. */
export const FlatStaff = ({ rows, onlyOnPhone = false }: { rows: readonly StaffRow[]; onlyOnPhone?: boolean }) => {
  const here = rows.find((row) => row.status === 'here');
  return (
    <nav className={cx(styles.flat, onlyOnPhone && styles.onPhone)} aria-label="Blocks of this exchange, in short">
      <ol>
        {rows.map((row) => (
          <li key={row.block} className={rowClass(row)} aria-current={row.status === 'here' ? 'step' : undefined}>
            <i />
            <span className={styles.name}>{row.name}</span>
          </li>
        ))}
      </ol>
      {onlyOnPhone && here && (
        <p>
          <b>{here.name}</b> <span className="quiet">{here.said}</span>
        </p>
      )}
    </nav>
  );
};
