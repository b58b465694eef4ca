import type { Draft } from '@slackwater/domain';
import { formatClock } from '@slackwater/domain/words/numbers';
import { useState } from 'react';
import { Button } from '../../ui/button.tsx';
import { cx } from '../../ui/class-names.ts';
import { InstantField } from '../bedside/shared/instant-field.tsx';
import { readInstant, typedFrom } from '../bedside/shared/typed-instant.ts';
import styles from './kept.module.css';
import type { Amended } from './kept-group.ts';

type EntryLineProps = {
  entry: Draft;
  zone: string;
  words: string;
  amended: Amended;
  onAmend: (amended: Amended) => void;
};

/** One kept entry: what it says, when it was, and whether it goes into the record. */
export const EntryLine = ({ entry, zone, words, amended, onAmend }: EntryLineProps) => {
  const [typed, setTyped] = useState<ReturnType<typeof typedFrom> | null>(null);
  return (
    <li>
      <span className={cx('mono', amended.leftOut && styles.leftOut)}>
        {formatClock(amended.happenedAt ?? entry.happenedAt, zone)}
      </span>
      <span className={cx(styles.what, amended.leftOut && styles.leftOut)}>{words}</span>
      <Button tone="text" onPress={() => setTyped(typed ? null : typedFrom(entry.happenedAt, zone))}>
        Time<span className="sr"> of: {words}</span>
      </Button>
      <Button tone="text" onPress={() => onAmend({ ...amended, leftOut: !amended.leftOut })}>
        {amended.leftOut ? 'Take it in' : 'Leave out'}
        <span className="sr">: {words}</span>
      </Button>
      {typed && (
        <InstantField
          label={`When it happened: ${words}`}
          typed={typed}
          zone={zone}
          onTyped={(next) => {
            setTyped(next);
            const { at } = readInstant(next, zone);
            onAmend({ ...amended, happenedAt: at, unreadable: at === null });
          }}
        />
      )}
    </li>
  );
};
