import { Link } from 'react-router';
import { useSession } from '../../api/use-session.ts';
import { SignOutWays } from '../../components/sign-out-ways.tsx';
import { paths } from '../../paths.ts';
import { Logo } from '../../ui/logo.tsx';
import { Accounts } from './accounts.tsx';
import { Hooks } from './hooks.tsx';
import styles from './hospital.module.css';
import { Wards } from './wards.tsx';

/** The hospital's wards, and who may sign in. For its managers. */
export const Component = () => {
  const { account, manager, demonstration } = useSession();
  return (
    <div className={styles.page}>
      <header className={styles.top}>
        <Link to={paths.home()} className={styles.brand}>
          <Logo />
          <b>Slackwater</b>
        </Link>
        {demonstration && <span className={styles.quiet}>Demonstration</span>}
        <span className={styles.who}>{account.name}</span>
        <SignOutWays ways={['here']} tone="text" />
      </header>
      <main className={styles.main}>
        {manager ? (
          <>
            <Wards />
            <Accounts />
            <Hooks />
          </>
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
