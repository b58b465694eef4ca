import type { ReactNode } from 'react';
import styles from './acts.module.css';

/** The foot of the work: the one next action first, what else may be done beside it. */
export const Acts = ({ children }: { children: ReactNode }) => <div className={styles.acts}>{children}</div>;
