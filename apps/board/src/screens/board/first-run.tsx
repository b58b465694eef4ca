import type { WardView } from '@slackwater/contract';
import { Link } from 'react-router';
import { useMay } from '../../api/use-session.ts';
import { paths } from '../../paths.ts';
import styles from './first-run.module.css';

/** The empty chart stands, and says how it fills. */
export const FirstRun = ({ ward }: { ward: WardView }) => {
  const mayAdmit = useMay(ward.id, 'admitAndMove');
  const maySet = useMay(ward.id, 'changeSettings');
  const mayImport = useMay(ward.id, 'importExport');
  return (
    <div className={styles.first}>
      <h2>No patient is on this board yet</h2>
      <p>Each takes one row; the water in it shows what is inside and until when.</p>
      <ul className={styles.ways}>
        <li>
          {mayAdmit ? (
            <Link className={styles.main} to={paths.admit(ward.id)}>
              Admit the first patient
            </Link>
          ) : (
            <span className={styles.closed}>Admitting is the charge nurse’s</span>
          )}
          <span>Two identifiers and what is inside now. Unknown is an answer.</span>
        </li>
        {(maySet || mayImport) && (
          <li>
            <Link className={styles.side} to={paths.setup(ward.id)}>
              Go through the ward’s settings
            </Link>
            <span>Every threshold has a default with its source; the ward decides before the first exchange.</span>
          </li>
        )}
      </ul>
    </div>
  );
};
