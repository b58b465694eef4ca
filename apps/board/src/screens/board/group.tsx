import type { Group } from '@slackwater/domain';
import type { EpochMs } from '@slackwater/domain/time/instant';
import { memo } from 'react';
import { cx } from '../../ui/class-names.ts';
import styles from './group.module.css';
import type { Placed } from './moment.ts';
import { Row } from './row.tsx';
import { GROUP_WORDS } from './words.ts';

type GroupProps = {
  group: Group;
  placed: readonly Placed[];
  origin: EpochMs;
  zone: string;
  names: ReadonlyMap<string, string>;
  wardId: string;
  mayTake: boolean;
  stale: boolean;
};

/** What stands where nobody does. */
const NOBODY: Record<Group, string> = {
  now: 'Drain due or overdue, an exchange under way, or a high alert.',
  withinTheHour: 'Drains of the next 60 min.',
  later: 'Drains after that, the soonest on top.',
  empty: 'Cavities without fluid.',
};

export const BoardGroup = memo(({ group, placed, ...rest }: GroupProps) => (
  <section className={cx(styles.group, styles[group])} aria-labelledby={`group-${group}`} data-group={group}>
    <h2 className={styles.head} id={`group-${group}`}>
      <b>{placed.length}</b> <span>{GROUP_WORDS[group]}</span>
    </h2>
    {placed.length === 0 ? (
      <p className={styles.nobody}>{NOBODY[group]}</p>
    ) : (
      <ol className={styles.rows}>
        {placed.map((one) => (
          <Row key={one.row.patient.id} placed={one} {...rest} />
        ))}
      </ol>
    )}
  </section>
));
