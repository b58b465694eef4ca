import type { Group, WallRow } from '@slackwater/domain';
import type { EpochMs } from '@slackwater/domain/time/instant';
import { memo } from 'react';
import { cx } from '../../ui/class-names.ts';
import type { Placed } from '../board/moment.ts';
import { GROUP_WORDS } from '../board/words.ts';
import styles from './wall-group.module.css';
import { WallRowLine } from './wall-row.tsx';

type WallGroupProps = {
  group: Extract<Group, 'now' | 'withinTheHour'>;
  placed: readonly Placed<WallRow>[];
  /** The whole group: of rows without room the beds are named. */
  all: readonly Placed<WallRow>[];
  origin: EpochMs;
  zone: string;
  names: ReadonlyMap<string, string>;
};

export const WallGroup = memo(({ group, placed, all, origin, zone, names }: WallGroupProps) => {
  const rest = all.slice(placed.length);
  return (
    <section className={cx(styles.group, styles[group])} aria-labelledby={`wall-${group}`}>
      <h2 className={styles.head} id={`wall-${group}`}>
        <b>{all.length}</b>
        <span>{GROUP_WORDS[group]}</span>
      </h2>
      <ol className={styles.rows}>
        {placed.map((one) => (
          <WallRowLine key={one.row.bed} placed={one} origin={origin} zone={zone} names={names} />
        ))}
        {rest.length > 0 && (
          <li className={styles.rest}>
            <b>{rest.map(({ row }) => row.bed).join('  ')}</b> {placed.length > 0 ? 'as well' : ''}
          </li>
        )}
      </ol>
    </section>
  );
});
