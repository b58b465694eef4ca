import type { WardView } from '@slackwater/contract';
import type { BoardRow } from '@slackwater/domain';
import { formatClock, formatDate } from '@slackwater/domain/words/numbers';
import { lazy, Suspense } from 'react';
import { Link } from 'react-router';
import { useMinute } from '../../live/now.ts';
import type { WardNow } from '../../live/ward-live.ts';
import { paths } from '../../paths.ts';
import { cx } from '../../ui/class-names.ts';
import { Logo } from '../../ui/logo.tsx';
import { afterBoard, loadBeside } from '../after-board.ts';
import { useDeviceCalls } from '../calls/device-calls.ts';
import { StreamState } from '../stream-state.tsx';
import { PersonMenu } from './person-menu.tsx';
import styles from './top-line.module.css';

type TopLineProps = {
  ward: WardView;
  live: WardNow<BoardRow>;
  here: 'board' | 'alerts' | 'setup' | 'kept' | 'supplies';
};

// What waits is said a moment after the board, which does not carry it.
const Waiting = lazy(() => afterBoard().then(() => loadBeside(() => import('../waiting/waiting.tsx'))));

/** Where one is, how fresh it is, what time it is, who one is. */
export const TopLine = ({ ward, live, here }: TopLineProps) => (
  <header className={cx(styles.top, live.connection.state === 'stale' && styles.stale)}>
    <Link className={styles.brand} to={paths.board(ward.id)} aria-label="Slackwater, unit board">
      <Logo />
      <b>Slackwater</b>
    </Link>
    <span className={styles.place}>
      <b>{ward.name}</b> <span className={styles.hospital}>{ward.hospital}</span>
    </span>
    {ward.demonstration && (
      <span className={styles.demonstration}>
        Demonstration<span className={styles.optional}>: invented patients</span>
      </span>
    )}
    <span className={styles.space} />
    <nav className={styles.nav} aria-label="Ward">
      <Link to={paths.board(ward.id)} aria-current={here === 'board' ? 'page' : undefined}>
        Board
      </Link>
      <Link to={paths.alerts(ward.id)} aria-current={here === 'alerts' ? 'page' : undefined}>
        Alerts
      </Link>
    </nav>
    <Suspense fallback={null}>
      <Waiting ward={ward} />
    </Suspense>
    <ChosenCalls ward={ward} live={live} />
    <StreamState live={live} zone={ward.zone} />
    <WardClock zone={ward.zone} />
    <PersonMenu ward={ward} />
  </header>
);

const Calls = lazy(async () => ({ default: (await loadBeside(() => import('../calls/calls.tsx'))).Calls }));

/** Most devices call nobody, and load nothing for it. */
const ChosenCalls = ({ ward, live }: { ward: WardView; live: WardNow<BoardRow> }) => {
  const { sound, notices } = useDeviceCalls();
  if (sound === 'off' && notices === 'off') return null;
  return (
    <Suspense fallback={null}>
      <Calls ward={ward} live={live} />
    </Suspense>
  );
};

const weekdays = new Map<string, Intl.DateTimeFormat>();

/** A formatter is kept for its zone: making one each minute cost more than the rest of the top line. */
const weekday = (at: number, zone: string): string => {
  let format = weekdays.get(zone);
  if (format === undefined) {
    format = new Intl.DateTimeFormat('en-GB', { weekday: 'short', timeZone: zone });
    weekdays.set(zone, format);
  }
  return format.format(at);
};

const WardClock = ({ zone }: { zone: string }) => {
  const now = useMinute();
  const time = formatClock(now, zone);
  return (
    <span className={styles.clock}>
      <span className={styles.date}>
        {weekday(now, zone)} {formatDate(now, zone)}
      </span>{' '}
      <time className={styles.time} dateTime={new Date(now).toISOString()}>
        <span className={styles.digits} style={{ width: `${time.length}ch` }}>
          {time}
        </span>
      </time>
    </span>
  );
};
