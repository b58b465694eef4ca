import type { WardView } from '@slackwater/contract';
import { useMemo, useState } from 'react';
import { useMay, useSession } from '../../api/use-session.ts';
import { shortNames } from '../../components/names.ts';
import { StreamNotices } from '../../components/stream-notices.tsx';
import { TopLine } from '../../components/top-line/top-line.tsx';
import { asTheClockSays, useMinute } from '../../live/now.ts';
import { useBoard } from '../../live/use-ward.ts';
import { Choice } from '../../ui/choice.tsx';
import { cx } from '../../ui/class-names.ts';
import { AboutAlerts } from './about-alerts.tsx';
import { AlertRow } from './alert-row.tsx';
import styles from './alerts.module.css';
import { isMine, openAlerts } from './open-alerts.ts';

/** All open alerts of the ward: what and whom, since when, why, what next, who has it, and what to do with it. */
export const Alerts = ({ ward }: { ward: WardView }) => {
  const live = useBoard(ward.id);
  const now = asTheClockSays(useMinute());
  const { account } = useSession();
  const mayOwn = useMay(ward.id, 'ownAlerts');
  const [shown, setShown] = useState<'all' | 'mine'>('all');
  const names = useMemo(() => shortNames(ward.staff), [ward.staff]);
  const all = openAlerts(live.rows ? [...live.rows.byId.values()] : [], now);
  const mine = all.filter((one) => isMine(one, account.id, now));
  const listed = shown === 'all' ? all : mine;
  return (
    <div className={styles.page} data-stream={live.connection.state}>
      <TopLine ward={ward} live={live} here="alerts" />
      <StreamNotices ward={ward} live={live} />
      <main className={styles.main}>
        <div className={styles.head}>
          <h1>
            <Headline open={all} />
          </h1>
          <Choice
            label="Which alerts"
            hideLabel
            value={shown}
            onChange={setShown}
            options={[
              { value: 'all', label: `All ${all.length}` },
              { value: 'mine', label: `Mine and my patients’ ${mine.length}` },
            ]}
          />
        </div>
        <div className={styles.columns} aria-hidden="true">
          <span>What, bed, patient</span>
          <span>Since</span>
          <span>Why, by which rule</span>
          <span>What next, under ward policy</span>
          <span>Who has it</span>
        </div>
        <ol className={cx(listed.length === 0 && styles.none)}>
          {listed.length === 0 && <li>{all.length === 0 ? 'No alert is open.' : 'None of them is yours.'}</li>}
          {listed.map((one) => (
            <AlertRow
              key={one.alert.id}
              open={one}
              ward={ward}
              names={names}
              now={now}
              mayNot={
                mayOwn
                  ? live.connection.state === 'stale'
                    ? 'Nothing is heard from the server'
                    : null
                  : 'Your role does not own alerts'
              }
            />
          ))}
        </ol>
      </main>
      <AboutAlerts policy={ward.policy} />
    </div>
  );
};

const Headline = ({ open }: { open: ReturnType<typeof openAlerts> }) => {
  const alone = open.filter(({ alert, standing }) => alert.rank === 'high' && standing === 'nobody').length;
  const count =
    open.length === 0 ? 'No alert is open' : open.length === 1 ? '1 alert is open' : `${open.length} alerts are open`;
  return (
    <>
      {count}
      {alone > 0 && <b>, {alone === 1 ? 'one High has' : `${alone} High have`} nobody</b>}
    </>
  );
};
