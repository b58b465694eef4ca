import type { Clash } from '@slackwater/domain/ward/workload';
import { formatClock } from '@slackwater/domain/words/numbers';
import { memo } from 'react';
import { cx } from '../../ui/class-names.ts';
import { BedNumber } from './bed-number.tsx';
import type { LaterHours } from './later-hours.ts';
import styles from './wall-later.module.css';

type WallLaterProps = { count: number; hours: LaterHours; clashing: readonly Clash[]; zone: string };

/** Beds of the later hours in columns of half an hour; a clash is a boxed column. What lies beyond keeps its time. */
export const WallLater = memo(
  ({ count, hours: { columns, beyond, isBeyondBelow }, clashing, zone }: WallLaterProps) => (
    <section className={styles.later} aria-labelledby="wall-later">
      <h2 className={styles.head} id="wall-later">
        <b>{count}</b> <span>Later</span>
      </h2>
      <div className={styles.body}>
        <ol className={styles.columns}>
          {columns.map(({ from, placed }, index) => {
            // A clash of drains that are only planned has no bed to show yet.
            const isClash = placed.length > 1 && clashing.some((clash) => clash.from === from);
            return (
              <li key={from} className={cx(index % 2 === 0 && styles.hour)}>
                {index % 2 === 0 && <span className={styles.time}>{formatClock(from, zone).slice(0, 5)}</span>}
                <span className={cx(styles.beds, isClash && styles.clash)}>
                  {placed.map(({ row }) => (
                    <BedNumber key={row.bed} row={row} />
                  ))}
                </span>
              </li>
            );
          })}
        </ol>
        <p className={cx(styles.beyond, isBeyondBelow && styles.below)}>
          {beyond.map(({ row, moment }) => (
            <span key={row.bed}>
              <BedNumber row={row} />{' '}
              {moment.at !== null && <span className="mono">{formatClock(moment.at, zone).slice(0, 5)}</span>}
            </span>
          ))}
        </p>
      </div>
    </section>
  ),
);
