import { ALERT_TITLES } from '@slackwater/domain/alert/alert';
import { RANK_WORDS } from '../../components/alert-flag/alert-flag.tsx';
import styles from './dialogs.module.css';
import type { Open } from './open-alerts.ts';

/** Which alert a question is about, and whose: alerts look alike behind a dialog, and another may have come on top. */
export const AboutAlert = ({ open: { alert, row } }: { open: Open }) => (
  <p className={styles.about}>
    <b>
      {RANK_WORDS[alert.rank]} {ALERT_TITLES[alert.kind]}
    </b>
    , bed {row.bed}, {row.patient.family}, {row.patient.given}
  </p>
);
