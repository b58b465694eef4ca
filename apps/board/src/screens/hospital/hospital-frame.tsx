import type { ReactNode } from 'react';
import { Link } from 'react-router';
import { useSession } from '../../api/use-session.ts';
import { SignOutWays } from '../../components/sign-out-ways.tsx';
import { paths } from '../../paths.ts';
import { Logo } from '../../ui/logo.tsx';
import styles from './hospital.module.css';

/** A page of the hospital: shown to its managers, others are told whom to ask. */
export const HospitalFrame = ({ children }: { children: ReactNode }) => {
  const { account, manager, demonstration } = useSession();
  return (
    <div className={styles.page}>
      <header className={styles.top}>
        <Link to={paths.home()} className={styles.brand} aria-label="Slackwater, first page">
          <Logo />
          <b>Slackwater</b>
        </Link>
        {demonstration && <span className={styles.quiet}>Demonstration</span>}
        <span className={styles.who}>{account.name}</span>
        <SignOutWays ways={['here']} tone="text" />
      </header>
      <main className={styles.main}>
        {manager ? (
          children
        ) : (
          <>
            <h1>This page is for managers of the hospital</h1>
            <p className={styles.lead}>If you have no ward yet, ask one of them for a role, then sign in again.</p>
          </>
        )}
      </main>
    </div>
  );
};
