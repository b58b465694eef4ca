import type { AlertRank } from '@slackwater/domain';
import { type EpochMs, MINUTE_MS } from '@slackwater/domain/time/instant';
import { formatMinutes } from '@slackwater/domain/words/numbers';
import { type ReactNode, useCallback } from 'react';
import { asTheClockSays } from '../../live/now.ts';
import { writeEachMinute } from '../../live/write-each-minute.ts';
import { cx } from '../../ui/class-names.ts';
import { Mark } from '../../ui/mark.tsx';
import styles from './alert-flag.module.css';

export const RANK_WORDS: Record<AlertRank, string> = { high: 'High', medium: 'Medium', low: 'Low' };

type AlertFlagProps = {
  rank: AlertRank;
  /** What it is called: `ALERT_TITLES`, or `rowTitle` where there is one line for it. */
  title: string;
  /** Who has it, in words; null = nobody. */
  owner: ReactNode | null;
  /** Since when nobody has it. */
  nobodySince: EpochMs;
  more?: number;
  /** The wall shows no minutes of it: the countdown beside it is large enough. */
  withSince?: boolean;
  /** Nothing is heard any more: it was so, and nobody knows since. */
  stale?: boolean;
  children?: ReactNode;
};

/** An alert in its row: mark, rank and title, who has it. Shape, frame and word carry the rank before colour does. */
export const AlertFlag = ({
  rank,
  title,
  owner,
  nobodySince,
  more = 0,
  withSince = true,
  stale = false,
  children,
}: AlertFlagProps) => (
  <span className={cx(styles.flag, styles[rank])}>
    <Mark rank={rank} className={styles.mark} />
    <span className={styles.text}>
      <span className={styles.line}>
        <b>{RANK_WORDS[rank]}</b> {title}
        {more > 0 && (
          <span>
            {' '}
            <b aria-hidden="true">+{more}</b>
            <span className="sr">and {more} more</span>
          </span>
        )}
      </span>
      <span className={styles.line}>
        {owner ?? (
          <>
            <b>Nobody {stale ? 'had' : 'has'} it</b>
            {withSince && !stale && (
              <span className={styles.since}>
                , <Since at={nobodySince} />
              </span>
            )}
          </>
        )}
      </span>
    </span>
    {children}
  </span>
);

/** How long ago, to the minute. */
export const Since = ({ at }: { at: EpochMs }) => {
  const written = useCallback(
    (element: HTMLElement | null) =>
      element
        ? writeEachMinute(element, (now) =>
            formatMinutes(Math.max(0, Math.floor((asTheClockSays(now) - at) / MINUTE_MS))),
          )
        : undefined,
    [at],
  );
  return <span ref={written} className="nb" />;
};
