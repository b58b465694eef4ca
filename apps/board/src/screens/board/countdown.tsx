import type { BoardRow, WallRow } from '@slackwater/domain';
import { rowAt } from '@slackwater/domain/ward/row-at';
import { asTheClockSays, useEachMinute } from '../../live/now.ts';
import styles from './countdown.module.css';

/** Minutes as large numerals that line up: hours stand in a column of their own. */
export const Countdown = ({ row }: { row: BoardRow | WallRow }) => {
  const minutes = useEachMinute((now) => rowAt(row, asTheClockSays(now)).minutes);
  return minutes === null ? null : <Minutes minutes={minutes} />;
};

export const Minutes = ({ minutes }: { minutes: number }) => {
  const whole = Math.floor(minutes);
  const hours = Math.floor(whole / 60);
  const rest = whole % 60;
  return (
    <span role="timer" className={hours > 0 ? styles.withHours : styles.minutes}>
      {hours > 0 && (
        <>
          <b>{hours}</b>
          <i>h</i>
        </>
      )}
      <b>{hours > 0 ? String(rest).padStart(2, '0') : rest}</b>
      <i>min</i>
    </span>
  );
};
