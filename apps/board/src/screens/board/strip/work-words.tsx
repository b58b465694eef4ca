import type { WardView } from '@slackwater/contract';
import type { BoardRow } from '@slackwater/domain';
import { MINUTE_MS } from '@slackwater/domain/time/instant';
import type { Clash } from '@slackwater/domain/ward/workload';
import { formatClock } from '@slackwater/domain/words/numbers';
import { lazy, Suspense } from 'react';
import { loadBeside } from '../../../components/after-board.ts';
import { RANK_WORDS } from '../../../components/alert-flag/alert-flag.tsx';
import { familyName } from '../../../components/names.ts';
import { useMinute } from '../../../live/now.ts';
import { Mark } from '../../../ui/mark.tsx';
import { WarmBags } from './warm-bags.tsx';
import styles from './work-words.module.css';

// Most wards set no windows, and load nothing for them.
const WhoCanMove = lazy(() => loadBeside(() => import('./who-can-move.tsx')));

type WorkWordsProps = {
  rows: readonly BoardRow[];
  clashing: readonly Clash[];
  ward: WardView;
};

/** How many clashes have room; the chart beside shows them all. */
const MOST_CLASHES = 2;
const RECENT_MS = 30 * MINUTE_MS;

/** Clashes and bags to warm in words, and how many alerts are open. */
export const WorkWords = ({ rows, clashing, ward }: WorkWordsProps) => {
  const { zone } = ward;
  const now = useMinute();
  const clock = (at: number) => formatClock(at, zone);
  const ahead = clashing.filter(({ to }) => to > now).slice(0, MOST_CLASHES);
  const open = rows.flatMap((row) => row.alerts);
  const recent = open.filter((alert) => alert.raisedAt > now - RECENT_MS).length;
  return (
    <div className={styles.words}>
      {ahead.length === 0 ? (
        <p>
          <b>No clash ahead.</b>
        </p>
      ) : (
        ahead.map(({ from, to, count, nurse }) => (
          <p key={from}>
            <b className="nb">
              {clock(from)} to {clock(to)}
            </b>{' '}
            {count} due
            {nurse &&
              (nurse.count === count
                ? `, all ${possessive(nurse.name)}`
                : `, ${nurse.count} of them ${possessive(nurse.name)}`)}
          </p>
        ))
      )}
      {rows.some(({ drainWindow }) => drainWindow !== null) && (
        <Suspense fallback={null}>
          <WhoCanMove rows={rows} ward={ward} />
        </Suspense>
      )}
      <p>
        <WarmBags rows={rows} zone={zone} />
      </p>
      <p className={styles.tally}>
        {(['high', 'medium', 'low'] as const).map((rank) => (
          <span key={rank}>
            <Mark rank={rank} className={styles.mark} />
            <b>{open.filter((alert) => alert.rank === rank).length}</b> {RANK_WORDS[rank]}
          </span>
        ))}
        {recent > 0 && <span className={styles.recent}>{recent} raised in the last 30 min</span>}
      </p>
    </div>
  );
};

const possessive = (name: string): string => `${familyName(name)}’s`;
