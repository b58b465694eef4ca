import type { WardView } from '@slackwater/contract';
import { HOUR_MS } from '@slackwater/domain/time/instant';
import type { Clash } from '@slackwater/domain/ward/workload';
import { formatClock, formatDate } from '@slackwater/domain/words/numbers';
import { useSession } from '../../api/use-session.ts';
import { familyName } from '../../components/names.ts';
import { useMinute } from '../../live/now.ts';
import type { WardNow } from '../../live/ward-live.ts';
import { cx } from '../../ui/class-names.ts';
import styles from './wall-top.module.css';

/** A display that ends is said early enough that somebody who can renew it passes by. */
const SAID_BEFORE_END_MS = 7 * 24 * HOUR_MS;

type WallTopProps = { ward: WardView; live: WardNow<unknown>; clashing: readonly Clash[] };

/** Which ward, the next clash, how fresh it is, what time it is. That the display ends gives way to a clash. */
export const WallTop = ({ ward, live, clashing }: WallTopProps) => {
  const now = useMinute();
  const clock = (at: number) => formatClock(at, ward.zone);
  const next = clashing.find(({ to }) => to > now);
  const { state, heardAt } = live.connection;
  const { endsAt, roles } = useSession();
  // whoever signed in as a person for a shift looks at a wall too, and knows when the shift ends
  const isDisplay = roles.every(({ role }) => role === 'wall');
  const ends =
    isDisplay && endsAt - now < SAID_BEFORE_END_MS ? `Display ends ${formatDate(endsAt, ward.zone)}: renew it` : null;
  const small = [ward.demonstration && 'Demonstration', next && ends].filter(Boolean).join('. ');
  return (
    <header className={cx(styles.top, state === 'stale' && styles.stale)}>
      <p className={styles.place}>
        <b>{ward.name}</b>
        {small !== '' && <span className={styles.small}>{small}</span>}
      </p>
      <p className={styles.words}>
        {live.unwatchedSince !== null ? (
          <b>Nobody watches the clock since {clock(live.unwatchedSince)}</b>
        ) : (
          state !== 'stale' &&
          (next ? (
            <>
              <b className="nb">
                {clock(next.from)} to {clock(next.to)}
              </b>
              : <b>{next.count}</b> due
              {next.nurse && (
                <>
                  , <b>{next.nurse.count}</b> {familyName(next.nurse.name)}’s
                </>
              )}
            </>
          ) : (
            <b>{ends}</b>
          ))
        )}
      </p>
      <p className={styles.stream} role={state === 'stale' ? 'alert' : undefined}>
        <i className={state === 'live' ? styles.dot : styles.hollow} />
        {STREAM_WORDS[state]}
        {state === 'stale' && ` ${clock(heardAt)}. Look at the beds.`}
      </p>
      <time className={styles.clock} dateTime={new Date(now).toISOString()}>
        {clock(now)}
      </time>
    </header>
  );
};

const STREAM_WORDS = {
  connecting: 'Connecting',
  live: 'Live',
  reconnecting: 'Reconnecting',
  stale: 'Stale since',
} as const;
