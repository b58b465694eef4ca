import type { ReactNode } from 'react';
import { cx } from './class-names.ts';
import styles from './notice.module.css';

type NoticeProps = {
  /** `ink`: the tool says something about itself that changes what may be trusted. `quiet`: worth knowing. */
  tone?: 'ink' | 'quiet';
  /** Read out at once when it appears; else politely. */
  urgent?: boolean;
  children: ReactNode;
};

/** A strip in which the tool speaks about itself, never about a patient. */
export const Notice = ({ tone = 'quiet', urgent = false, children }: NoticeProps) => (
  <div className={cx(styles.notice, styles[tone])} role={urgent ? 'alert' : 'status'}>
    {children}
  </div>
);
