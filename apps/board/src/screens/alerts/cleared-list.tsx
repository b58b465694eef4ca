import type { ClearedAlert, WardView } from '@slackwater/contract';
import { ALERT_TITLES } from '@slackwater/domain/alert/alert';
import { type EpochMs, minutesBetween } from '@slackwater/domain/time/instant';
import { formatClock, formatMinutes } from '@slackwater/domain/words/numbers';
import { Link } from 'react-router';
import { serverClock } from '../../api/clock.ts';
import { wordsOf } from '../../api/problems.ts';
import { RANK_WORDS } from '../../components/alert-flag/alert-flag.tsx';
import { familyName } from '../../components/names.ts';
import { paths } from '../../paths.ts';
import { Mark } from '../../ui/mark.tsx';
import styles from './cleared-list.module.css';
import type { useCleared } from './cleared-query.ts';

/** The device's own stamp, by the ward's clock. */
const byTheWard = (deviceAt: number): EpochMs => serverClock.now() - (Date.now() - deviceAt);

type ClearedListProps = { ward: WardView; cleared: ReturnType<typeof useCleared> };

/** What ended today, the newest first: how, by whom, and how long it took until somebody had it. */
export const ClearedList = ({ ward, cleared: { data, error, dataUpdatedAt } }: ClearedListProps) => {
  const clock = (at: EpochMs) => formatClock(at, ward.zone);
  if (!data) return error ? <p role="alert">{wordsOf(error)}</p> : <p className={styles.none}>Being fetched</p>;
  return (
    <>
      <p className={styles.lead}>
        Ended since the ward day began at {clock(data.from)}, as of {clock(byTheWard(dataUpdatedAt))}.
        {error && <b role="alert"> Not heard since: {wordsOf(error)}</b>}
        {data.more && ` The newest ${data.alerts.length}; the others stand in the patients’ records.`}
      </p>
      {data.alerts.length === 0 ? (
        <p className={styles.none}>None has ended yet.</p>
      ) : (
        <ol>
          {data.alerts.map((alert) => (
            <Cleared key={alert.id} alert={alert} clock={clock} />
          ))}
        </ol>
      )}
    </>
  );
};

const Cleared = ({ alert, clock }: { alert: ClearedAlert; clock: (at: EpochMs) => string }) => (
  <li className={styles.cleared} data-cleared={alert.id}>
    <Mark rank={alert.rank} className={styles.mark} />
    <div>
      <h2>
        <b>{RANK_WORDS[alert.rank]}</b> {ALERT_TITLES[alert.kind]}
      </h2>
      <Link to={paths.bedside(alert.patientId)}>
        {alert.bed === null ? 'Left the ward' : `Bed ${alert.bed}`}, {alert.patientName}
      </Link>
    </div>
    <p>
      Raised {clock(alert.raisedAt)}, settings version {alert.settingsVersion}.{' '}
      {alert.acknowledgedAt === null
        ? 'Nobody had it.'
        : `Somebody had it after ${formatMinutes(minutesBetween(alert.raisedAt, alert.acknowledgedAt))}.`}
    </p>
    <p>
      {alert.clearedBy === 'condition' ? (
        <>Cleared {clock(alert.clearedAt)}: no longer so</>
      ) : (
        <>
          Cleared {clock(alert.clearedAt)} by <b>{familyName(alert.clearedByName ?? 'somebody')}</b>
          {alert.reason !== null && <>: {alert.reason}</>}
        </>
      )}
    </p>
  </li>
);
