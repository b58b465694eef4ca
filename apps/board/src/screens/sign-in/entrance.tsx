import type { ReactNode } from 'react';
import { Logo } from '../../ui/logo.tsx';
import { Caution } from './caution.tsx';
import styles from './sign-in.module.css';

/** What stands before the sign-in: whose tool it is, one form, and the cautions. */
export const Entrance = ({ title, lead, children }: { title: string; lead: string; children: ReactNode }) => (
  <div className={styles.page}>
    <main className={styles.main}>
      <div>
        <p className={styles.brand}>
          <Logo className={styles.logo} />
          <b>Slackwater</b>
        </p>
        <h1 className={styles.title}>{title}</h1>
        <p className={styles.lead}>{lead}</p>
      </div>
      {children}
    </main>
    <Caution />
  </div>
);
