import type { WallRow } from '@slackwater/domain';
import type { EpochMs } from '@slackwater/domain/time/instant';
import type { Clash } from '@slackwater/domain/ward/workload';
import { formatClock } from '@slackwater/domain/words/numbers';
import { memo } from 'react';
import { useEachMinute } from '../../live/now.ts';
import { cx } from '../../ui/class-names.ts';
import type { Placed } from '../board/moment.ts';
import { HALF_HOUR_MS } from '../board/strip/slots.ts';
import { BedNumber } from './bed-number.tsx';
import styles from './wall-later.module.css';

const COLUMNS = 10;

type WallLaterProps = { placed: readonly Placed<WallRow>[]; clashing: readonly Clash[]; zone: string };

/** Beds of the later hours in columns of half an hour; a clash is a boxed column. What lies beyond keeps its time. */
export const WallLater = memo(({ placed, clashing, zone }: WallLaterProps) => {
  const firstOfHour = useEachMinute(
    (now) => Math.floor((now + 2 * HALF_HOUR_MS) / (2 * HALF_HOUR_MS)) * 2 * HALF_HOUR_MS,
  );
  const columns = Array.from({ length: COLUMNS }, (_, index) => firstOfHour + index * HALF_HOUR_MS);
  const end = firstOfHour + COLUMNS * HALF_HOUR_MS;
  const inColumn = (from: EpochMs) =>
    placed.filter(({ moment: { at } }) => at !== null && at >= from && at < from + HALF_HOUR_MS);
  // A clash of drains that are only planned has no bed to show yet.
  const isClash = (from: EpochMs) => inColumn(from).length > 1 && clashing.some((clash) => clash.from === from);
  const beyond = placed.filter(({ moment: { at } }) => at === null || at >= end);
  return (
    <section className={styles.later} aria-labelledby="wall-later">
      <h2 className={styles.head} id="wall-later">
        <b>{placed.length}</b> <span>Later</span>
      </h2>
      <div className={styles.body}>
        <ol className={styles.columns}>
          {columns.map((from, index) => (
            <li key={from} className={cx(index % 2 === 0 && styles.hour)}>
              {index % 2 === 0 && <span className={styles.time}>{formatClock(from, zone).slice(0, 5)}</span>}
              <span className={cx(styles.beds, isClash(from) && styles.clash)}>
                {inColumn(from).map(({ row }) => (
                  <BedNumber key={row.bed} row={row} />
                ))}
              </span>
            </li>
          ))}
        </ol>
        <p className={styles.beyond}>
          {beyond.map(({ row, moment }) => (
            <span key={row.bed}>
              <BedNumber row={row} />{' '}
              {moment.at !== null && <span className="mono">{formatClock(moment.at, zone).slice(0, 5)}</span>}
            </span>
          ))}
        </p>
      </div>
    </section>
  );
});
