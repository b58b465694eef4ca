import type { ReactNode } from 'react';
import styles from './form.module.css';

/** One statement to tick. */
export const Tick = ({
  checked,
  onChange,
  children,
}: {
  checked: boolean;
  onChange: (checked: boolean) => void;
  children: ReactNode;
}) => (
  <label className={styles.tick}>
    <input type="checkbox" checked={checked} onChange={(event) => onChange(event.target.checked)} />
    <span>{children}</span>
  </label>
);
