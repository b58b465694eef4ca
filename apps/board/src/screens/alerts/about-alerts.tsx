import type { WardPolicy } from '@slackwater/domain';
import { formatMinutes } from '@slackwater/domain/words/numbers';
import styles from './alerts.module.css';

/** What the ward has set about alerts, said where they are seen. */
export const AboutAlerts = ({ policy: { settings } }: { policy: WardPolicy }) => (
  <footer className={styles.about}>
    <p>
      <b>What an alert is.</b> Something that a named person must act on in time; all else is status. High that nobody
      acknowledges in {formatMinutes(settings.escalateToChargeNurseMinutes)} goes to the charge nurse, after{' '}
      {formatMinutes(settings.escalateToPhysicianMinutes)} to the physician. An acknowledgement or a snooze lasts{' '}
      {formatMinutes(settings.acknowledgeMostMinutes)} at most, and stands in the record.
    </p>
    <p className={styles.source}>Ward settings; common practice where the ward has not decided.</p>
  </footer>
);
