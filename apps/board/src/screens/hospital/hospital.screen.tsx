import { Link } from 'react-router';
import { paths } from '../../paths.ts';
import { Accounts } from './accounts.tsx';
import { Hooks } from './hooks.tsx';
import styles from './hospital.module.css';
import { HospitalFrame } from './hospital-frame.tsx';
import { Wards } from './wards.tsx';

/** The hospital's wards, and who may sign in. For its managers. */
export const Component = () => (
  <HospitalFrame>
    <Wards />
    <Accounts />
    <section aria-label="Audit">
      <h2>Audit</h2>
      <p className={styles.lead}>
        Who looked at whom, who signed in, who went on against a stop, who changed what.{' '}
        <Link to={paths.audit()} className={styles.link}>
          Search the audit
        </Link>
      </p>
    </section>
    <Hooks />
  </HospitalFrame>
);
