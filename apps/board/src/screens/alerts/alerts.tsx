import type { WardView } from '@slackwater/contract';
import { useMemo, useState } from 'react';
import { roleOn, useMay, useSession } from '../../api/use-session.ts';
import { shortNames } from '../../components/names.ts';
import { StreamNotices } from '../../components/stream-notices.tsx';
import { TopLine } from '../../components/top-line/top-line.tsx';
import { asTheClockSays, useMinute } from '../../live/now.ts';
import { useBoard } from '../../live/use-ward.ts';
import { Choice } from '../../ui/choice.tsx';
import { AboutAlerts } from './about/about-alerts.tsx';
import { AlertList } from './alert-list.tsx';
import styles from './alerts.module.css';
import { ClearedList } from './cleared-list.tsx';
import { useCleared } from './cleared-query.ts';
import { NurseChoice } from './nurse-choice.tsx';
import { isMine, openAlerts, whose } from './open-alerts.ts';

type Shown = 'all' | 'mine' | 'cleared';

/** All open alerts of the ward: what and whom, since when, why, what next, who has it, and what to do with it. */
export const Alerts = ({ ward }: { ward: WardView }) => {
  const live = useBoard(ward.id);
  const now = asTheClockSays(useMinute());
  const session = useSession();
  const viewer = { accountId: session.account.id, role: roleOn(session, ward.id) };
  const mayOwn = useMay(ward.id, 'ownAlerts');
  const [shown, setShown] = useState<Shown>('all');
  const [nurseId, setNurseId] = useState<string | null>(null);
  const names = useMemo(() => shortNames(ward.staff), [ward.staff]);
  const cleared = useCleared(ward.id);
  const all = openAlerts(live.rows ? [...live.rows.byId.values()] : [], viewer, now);
  const mine = all.filter((one) => isMine(one, viewer, now));
  const listed = (shown === 'mine' ? mine : all).filter((one) => nurseId === null || whose(one, now) === nurseId);
  const stale = live.connection.state === 'stale';
  return (
    <div className={styles.page} data-stream={live.connection.state}>
      <TopLine ward={ward} live={live} here="alerts" />
      <StreamNotices ward={ward} live={live} />
      <main className={styles.main}>
        <div className={styles.head}>
          <h1>
            <Headline open={all} />
          </h1>
          <div className={styles.filters}>
            {shown !== 'cleared' && (
              <NurseChoice open={all} now={now} names={names} value={nurseId} onChange={setNurseId} />
            )}
            <Choice
              label="Which alerts"
              hideLabel
              value={shown}
              onChange={setShown}
              options={[
                { value: 'all', label: `All ${all.length}` },
                { value: 'mine', label: `Mine ${mine.length}` },
                { value: 'cleared', label: `Cleared today${cleared.data ? ` ${countOf(cleared.data)}` : ''}` },
              ]}
            />
          </div>
        </div>
        {shown === 'cleared' ? (
          <ClearedList ward={ward} cleared={cleared} />
        ) : (
          <AlertList
            listed={listed}
            none={all.length === 0 ? 'No alert is open.' : 'None of them is so.'}
            ward={ward}
            names={names}
            now={now}
            mayNot={mayOwn ? (stale ? 'Nothing is heard from the server' : null) : 'Your role does not own alerts'}
          />
        )}
      </main>
      <AboutAlerts ward={ward} />
    </div>
  );
};

const countOf = ({ alerts, more }: { alerts: readonly unknown[]; more: boolean }): string =>
  more ? `over ${alerts.length}` : String(alerts.length);

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
