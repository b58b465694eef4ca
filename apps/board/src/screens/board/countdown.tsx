import type { BoardRow, WallRow } from '@slackwater/domain';
import { rowAt } from '@slackwater/domain/ward/row-at';
import { useLayoutEffect, useRef } from 'react';
import { asTheClockSays, minutes } from '../../live/now.ts';
import styles from './countdown.module.css';
import { paintMinutes } from './paint-minutes.ts';

/**
 * Minutes as large numerals that line up: hours stand in a column of their own. They are painted past React, since at the
 * turn of a minute all of them change at once and nothing else does.
 */
export const Countdown = ({ row }: { row: BoardRow | WallRow }) => {
  const ref = useRef<HTMLSpanElement>(null);
  useLayoutEffect(() => {
    const element = ref.current;
    if (!element) return;
    const paint = () => paintMinutes(element, rowAt(row, asTheClockSays(minutes.current())).minutes);
    paint();
    return minutes.subscribe(paint);
  }, [row]);
  return <span ref={ref} role="timer" className={styles.minutes} />;
};
