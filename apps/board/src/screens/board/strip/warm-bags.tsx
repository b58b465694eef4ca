import type { BoardRow } from '@slackwater/domain';
import { HOUR_MS } from '@slackwater/domain/time/instant';
import { type BagToWarm, warmList } from '@slackwater/domain/ward/warm-list';
import { formatClock, formatMl } from '@slackwater/domain/words/numbers';
import { lazy, Suspense, useState } from 'react';
import { loadBeside } from '../../../components/after-board.ts';
import { useMinute } from '../../../live/now.ts';
import styles from './warm-bags.module.css';

const WarmTable = lazy(() => loadBeside(() => import('./warm-table.tsx')));

const AHEAD_MS = 2 * HOUR_MS;

/** What to warm, two hours ahead: counted in the strip; by time and bed behind it, with what is not certain and why. */
export const WarmBags = ({ rows, zone }: { rows: readonly BoardRow[]; zone: string }) => {
  const now = useMinute();
  const [open, setOpen] = useState(false);
  const list = warmList(rows, now, now + AHEAD_MS);
  const until = formatClock(now + AHEAD_MS, zone);
  if (list.bags.length === 0 && list.without.length === 0) {
    return <span className={styles.none}>No bag to warm by {until}.</span>;
  }
  return (
    <>
      <button type="button" className={styles.open} onClick={() => setOpen(true)}>
        <b>Warm by {until}</b> {countWords(list.bags)}
      </button>
      {open && (
        <Suspense fallback={null}>
          <WarmTable list={list} until={until} zone={zone} onClose={() => setOpen(false)} />
        </Suspense>
      )}
    </>
  );
};

/** As many kinds as the strip has room for. */
const MOST_KINDS = 2;

/** Equal bags counted together, most first: "7 × 2,000 mL 2.5 %, 4 × 1,500 mL 1.5 %, 3 others, 1 not certain". */
const countWords = (bags: readonly BagToWarm[]): string => {
  const certain = bags.filter(({ doubts }) => doubts.length === 0);
  const kinds = [...Map.groupBy(certain, ({ fillMl, strength }) => `${formatMl(fillMl)} ${strength}`)].sort(
    ([, a], [, b]) => b.length - a.length,
  );
  const shown = kinds.slice(0, MOST_KINDS);
  const others = kinds.slice(MOST_KINDS).reduce((sum, [, list]) => sum + list.length, 0);
  const notCertain = bags.length - certain.length;
  const words = [
    ...shown.map(([bag, list]) => `${list.length} × ${bag}`),
    ...(others > 0 ? [others === 1 ? '1 other' : `${others} others`] : []),
    ...(notCertain > 0 ? [`${notCertain} not certain`] : []),
  ];
  return words.length === 0 ? 'no bag' : words.join(', ');
};
