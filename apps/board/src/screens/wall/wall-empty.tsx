import type { WallRow } from '@slackwater/domain';
import { formatClock } from '@slackwater/domain/words/numbers';
import { memo } from 'react';
import { Mark } from '../../ui/mark.tsx';
import type { Placed } from '../board/moment.ts';
import { BedNumber } from './bed-number.tsx';
import styles from './wall-empty.module.css';

type WallEmptyProps = { placed: readonly Placed<WallRow>[]; later: readonly Placed<WallRow>[]; zone: string };

/** Empty cavities in one line, and the key to the lines under bed numbers above. */
export const WallEmpty = memo(({ placed, later, zone }: WallEmptyProps) => {
  const off = later.some(({ row }) => row.offWard !== null);
  const held = later.some(({ row }) => row.hold !== null && row.offWard === null);
  return (
    <section className={styles.empty} aria-labelledby="wall-empty">
      <h2 className={styles.head} id="wall-empty">
        <b>{placed.length}</b> <span>Empty</span>
      </h2>
      <ul className={styles.beds}>
        {placed.map(({ row, moment }) => (
          <li key={row.bed}>
            <BedNumber row={{ ...row, hold: null }} />
            <span>
              {row.hold
                ? 'on hold'
                : moment.at === null
                  ? 'no fill planned'
                  : `fill ${formatClock(moment.at, zone).slice(0, 5)}`}
            </span>
            {moment.alert && <Mark rank={moment.alert.rank} className={styles.mark} />}
          </li>
        ))}
      </ul>
      {(off || held) && (
        <p className={styles.key}>
          {off && <span className={styles.off}>off the ward</span>}
          {held && <span className={styles.hold}>on hold</span>}
        </p>
      )}
    </section>
  );
});
