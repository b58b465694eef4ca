import type { WardView } from '@slackwater/contract';
import { formatMinutes } from '@slackwater/domain/words/numbers';
import styles from './about-alerts.module.css';
import { TheRules } from './the-rules.tsx';
import { ThisDevice } from './this-device.tsx';
import { TooOften } from './too-often.tsx';

/** What is to be known about the ward's alerts, said where they are seen: what they are, whether they call too often. */
export const AboutAlerts = ({ ward }: { ward: WardView }) => {
  const { settings } = ward.policy;
  return (
    <footer className={styles.about}>
      <TooOften ward={ward} />
      <ThisDevice />
      <section aria-label="What an alert is">
        <h2>What an alert is</h2>
        <p>
          Something that a named person must act on in time; all else is status. High that nobody acknowledges in{' '}
          {formatMinutes(settings.escalateToChargeNurseMinutes)} goes to the charge nurse, after{' '}
          {formatMinutes(settings.escalateToPhysicianMinutes)} to the physician; so it does anew when an acknowledgement
          or a snooze runs out and it is still so. Both last {formatMinutes(settings.acknowledgeMostMinutes)} at most
          and stand in the record.
        </p>
        <p className={styles.source}>Ward settings; common practice where the ward has not decided.</p>
      </section>
      <TheRules ward={ward} />
    </footer>
  );
};
