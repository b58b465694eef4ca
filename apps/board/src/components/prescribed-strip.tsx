import type { ReactNode } from 'react';
import styles from './prescribed-strip.module.css';

type PrescribedStripProps = {
  /** Which revision or order, and of when: "revision 7, 23-Nov-2026 08:30". */
  source: ReactNode;
  cells: readonly { term: string; value: ReactNode; detail?: ReactNode }[];
};

/** What is prescribed, always in sight at the bedside. */
export const PrescribedStrip = ({ source, cells }: PrescribedStripProps) => (
  <section className={styles.strip} aria-label="Prescribed">
    <h2 className={styles.title}>
      Prescribed<span className={styles.source}>{source}</span>
    </h2>
    <dl className={styles.cells}>
      {cells.map((cell) => (
        <div key={cell.term}>
          <dt>{cell.term}</dt>
          <dd>
            <b>{cell.value}</b> {cell.detail ? <span>{cell.detail}</span> : null}
          </dd>
        </div>
      ))}
    </dl>
  </section>
);
