import type { OpenAlert } from '@slackwater/domain';
import { alertWords } from '@slackwater/domain/alert/words';
import { plusMinutes } from '@slackwater/domain/time/instant';
import { serverClock } from '../../../api/clock.ts';
import { AlertFlag } from '../../../components/alert-flag/alert-flag.tsx';
import { AlertOwner } from '../../../components/alert-flag/alert-owner.tsx';
import { byGravity, nobodySince, standingAt } from '../../../components/alert-flag/standing.ts';
import { shortNames } from '../../../components/names.ts';
import { useMinute } from '../../../live/now.ts';
import { Button } from '../../../ui/button.tsx';
import { useBedside } from '../bedside-context.ts';
import { act } from '../model/batch.ts';
import { Source } from '../shared/facts.tsx';
import styles from './bedside-alerts.module.css';

/** What is open at this bed: why, what next, who has it; taken here in one touch. */
export const BedsideAlerts = () => {
  const { state } = useBedside();
  const now = useMinute();
  return [...state.alerts].sort(byGravity(now)).map((alert) => <BedsideAlert key={alert.id} alert={alert} />);
};

const BedsideAlert = ({ alert }: { alert: OpenAlert }) => {
  const { policy, ward, clock, record, sending, mayDo, session } = useBedside();
  const now = useMinute();
  const standing = standingAt(alert, now);
  const words = alertWords(alert, policy);
  const until = plusMinutes(now, policy.settings.acknowledgeMostMinutes);
  const mine = alert.owner?.accountId === session.account.id && standing === 'held';
  const take = () => {
    const at = serverClock.now();
    const taken = { alertId: alert.id, until: plusMinutes(at, policy.settings.acknowledgeMostMinutes) };
    void record([act('alertAcknowledged', taken, at)], null);
  };
  return (
    <section className={styles.alert}>
      <AlertFlag
        rank={alert.rank}
        title={words.title}
        nobodySince={nobodySince(alert)}
        owner={
          standing === 'nobody' ? null : (
            <AlertOwner alert={alert} standing={standing} names={shortNames(ward.staff)} zone={ward.zone} until />
          )
        }
      />
      <p>{words.why}</p>
      <p>
        <b>{words.next}</b>
      </p>
      <Source>
        {words.source} Raised under settings version {alert.settingsVersion}.
      </Source>
      {!mine && (
        <Button
          onPress={take}
          disabledBecause={mayDo('ownAlerts') ? (sending ? 'being sent' : null) : 'not in your role'}
        >
          I have it, to {clock(until)}
        </Button>
      )}
    </section>
  );
};
