import type { ReactNode } from 'react';
import { Button } from '../../ui/button.tsx';
import styles from './observations.module.css';
import type { Observing } from './observe-context.ts';

type CardProps = {
  observing: Pick<Observing, 'sending' | 'closed'>;
  title: string;
  /** The last one, in words. */
  last?: ReactNode;
  action: ReactNode;
  /** What is still missing before it can be kept. */
  missing: string | null;
  onKeep: () => void;
  children: ReactNode;
};

/** One kind of observation: its fields and its own "keep". */
export const Card = ({ observing: { sending, closed }, title, last, action, missing, onKeep, children }: CardProps) => (
  <section className={styles.card} aria-label={title}>
    <h2>
      {title} {last && <small>{last}</small>}
    </h2>
    {children}
    <Button tone="firm" onPress={onKeep} disabledBecause={closed ?? (sending ? 'being sent' : missing)}>
      {action}
    </Button>
  </section>
);
