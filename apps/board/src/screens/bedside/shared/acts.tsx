import type { ReactNode } from 'react';
import { cx } from '../../../ui/class-names.ts';
import styles from './acts.module.css';

type ActsProps = {
  /** Says yes to a list: the list is passed before the action is reached, and never lies hidden behind it. */
  afterList?: boolean;
  children: ReactNode;
};

/** The foot of the work: the one next action first, what else may be done beside it. */
export const Acts = ({ afterList = false, children }: ActsProps) => (
  <div className={cx(styles.acts, afterList && styles.afterList)}>{children}</div>
);
