import type { WallRow } from '@slackwater/domain';
import type { EpochMs } from '@slackwater/domain/time/instant';
import { formatClock } from '@slackwater/domain/words/numbers';
import { memo } from 'react';
import { AlertFlag } from '../../components/alert-flag/alert-flag.tsx';
import { AlertOwner } from '../../components/alert-flag/alert-owner.tsx';
import { rowTitle } from '../../components/alert-flag/row-title.ts';
import { familyName } from '../../components/names.ts';
import { Ribbon } from '../../components/ribbon/ribbon.tsx';
import { cx } from '../../ui/class-names.ts';
import { Countdown } from '../board/countdown.tsx';
import type { Placed } from '../board/moment.ts';
import { ribbonLabel } from '../board/ribbon-words.ts';
import { STATE_WORDS } from '../board/words.ts';
import styles from './wall-row.module.css';

type WallRowProps = { placed: Placed<WallRow>; origin: EpochMs; zone: string; names: ReadonlyMap<string, string> };

/** One bed on the wall: which, whose initials, how long, what, who has it. */
export const WallRowLine = memo(({ placed: { row, moment }, origin, zone, names }: WallRowProps) => {
  const clock = (at: EpochMs) => formatClock(at, zone);
  const isHigh = moment.alert?.rank === 'high';
  const unheld = isHigh && moment.standing === 'nobody';
  const waits = row.waitsForSecondPersonSince !== null;
  const nurse = moment.nurse ? (names.get(moment.nurse) ?? familyName(row.nurse?.name ?? '')) : null;
  return (
    <li
      className={cx(
        styles.row,
        styles[moment.group],
        moment.alert && styles.hasAlert,
        unheld && styles.unheld,
        isHigh && !unheld && styles.held,
      )}
      data-bed={row.bed}
    >
      <span className={styles.bed}>
        <span className="sr">Bed </span>
        {row.bed}
      </span>
      <span className={styles.initials}>
        {row.initials}
        {row.hasAdditives && (
          <span className={styles.added}>
            <span aria-hidden="true">+</span>
            <span className="sr">, something was added to the bag</span>
          </span>
        )}
      </span>
      <span className={styles.numerals}>
        <Countdown row={row} />
      </span>
      <span className={styles.state}>
        <span className={styles.word}>{STATE_WORDS[moment.word]}</span>
        {/* A row has two lines: an alert leaves only this place for who is waited for. */}
        {waits && moment.alert ? (
          <span className={styles.second}>2nd person</span>
        ) : (
          moment.at !== null && <span className={styles.clock}>{clock(moment.at)}</span>
        )}
      </span>
      <span className={styles.ribbon}>
        <Ribbon row={row} origin={origin} label={ribbonLabel(row, moment, clock)} />
      </span>
      <span className={styles.alert}>
        {moment.alert ? (
          <AlertFlag
            rank={moment.alert.rank}
            title={rowTitle(moment.alert.kind)}
            nobodySince={moment.alert.raisedAt}
            withSince={false}
            owner={
              moment.standing === 'nobody' ? null : (
                <AlertOwner alert={moment.alert} standing={moment.standing} names={names} zone={zone} />
              )
            }
          />
        ) : (
          <span className={styles.nurse}>
            {nurse}
            {waits && <span className={styles.second}>2nd person</span>}
          </span>
        )}
      </span>
    </li>
  );
});
