import type { ReactNode } from 'react';
import styles from './heading.module.css';

/** What is done on this screen, and beside it the choice of how. */
export const Heading = ({ title, children }: { title: ReactNode; children?: ReactNode }) => (
  <div className={styles.row}>
    <h2 className={styles.title}>{title}</h2>
    {children}
  </div>
);

/** A small heading within the work. */
export const By = ({ id, children }: { id?: string; children: ReactNode }) => (
  <h3 id={id} className={styles.by}>
    {children}
  </h3>
);
