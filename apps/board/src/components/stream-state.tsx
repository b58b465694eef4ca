import type { EpochMs } from '@slackwater/domain/time/instant';
import { formatClock, formatMinutes } from '@slackwater/domain/words/numbers';
import { useEachMinute } from '../live/now.ts';
import type { WardNow } from '../live/ward-live.ts';
import styles from './stream-state.module.css';

type StreamStateProps = { live: Pick<WardNow<unknown>, 'connection' | 'changedAt'>; zone: string };

/** How fresh the screen is: always visible, in words, never by colour. */
export const StreamState = ({ live: { connection, changedAt }, zone }: StreamStateProps) => {
  const clock = (at: EpochMs) => formatClock(at, zone);
  const oldMinutes = useEachMinute((now) => Math.max(0, Math.floor((now - connection.heardAt) / 60_000)));
  switch (connection.state) {
    case 'connecting':
      return (
        <span className={styles.stream}>
          <i className={styles.hollow} />
          <b>Connecting</b>
        </span>
      );
    case 'live':
      return (
        <span className={styles.stream}>
          <i className={styles.dot} />
          <b>Live</b> {changedAt !== null && <span className={styles.quiet}>changed {clock(changedAt)}</span>}
        </span>
      );
    case 'reconnecting':
      return (
        <span className={styles.stream}>
          <i className={styles.hollow} />
          <b>Reconnecting</b> <span className={styles.quiet}>last heard {clock(connection.heardAt)}</span>
        </span>
      );
    case 'stale':
      return (
        <span className={styles.stream} role="alert">
          <i className={styles.hollow} />
          <b>Stale since {clock(connection.heardAt)}</b>
          <span className={styles.urge}>
            {oldMinutes > 0 && `, ${formatMinutes(oldMinutes)} old`}, trying again. Look at the beds.
          </span>
        </span>
      );
  }
};
