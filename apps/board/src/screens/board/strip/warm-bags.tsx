import type { BoardRow } from '@slackwater/domain';
import { type EpochMs, HOUR_MS } from '@slackwater/domain/time/instant';
import { type BagToWarm, warmList } from '@slackwater/domain/ward/workload';
import { formatClock, formatMl } from '@slackwater/domain/words/numbers';
import { useState } from 'react';
import { useMinute } from '../../../live/now.ts';
import { Button } from '../../../ui/button.tsx';
import { Dialog } from '../../../ui/dialog.tsx';
import styles from './warm-bags.module.css';

const AHEAD_MS = 2 * HOUR_MS;

/** What to warm, two hours ahead: counted in the strip, by time and bed behind it. */
export const WarmBags = ({ rows, zone }: { rows: readonly BoardRow[]; zone: string }) => {
  const now = useMinute();
  const [open, setOpen] = useState(false);
  const bags = warmList(rows, now, now + AHEAD_MS);
  const until = formatClock(now + AHEAD_MS, zone);
  if (bags.length === 0) return <span className={styles.none}>No bag to warm by {until}.</span>;
  return (
    <>
      <button type="button" className={styles.open} onClick={() => setOpen(true)}>
        <b>Warm by {until}</b> {countWords(bags)}
      </button>
      {open && (
        <Dialog title={`Bags to warm by ${until}`} onClose={() => setOpen(false)}>
          <BagTable bags={bags} zone={zone} />
          <Button onPress={() => setOpen(false)}>Back</Button>
        </Dialog>
      )}
    </>
  );
};

const bagWords = ({ fillMl, strength }: BagToWarm): string => `${formatMl(fillMl)} ${strength}`;

/** As many kinds as the strip has room for. */
const MOST_KINDS = 2;

/** Equal bags counted together, most first: "7 × 2,000 mL 2.5 %, 4 × 1,500 mL 1.5 %, 3 others". */
const countWords = (bags: readonly BagToWarm[]): string => {
  const kinds = [...Map.groupBy(bags, bagWords)].sort(([, a], [, b]) => b.length - a.length);
  const shown = kinds.slice(0, MOST_KINDS);
  const others = kinds.slice(MOST_KINDS).reduce((sum, [, list]) => sum + list.length, 0);
  return [
    ...shown.map(([words, list]) => `${list.length} × ${words}`),
    ...(others > 0 ? [others === 1 ? '1 other' : `${others} others`] : []),
  ].join(', ');
};

const BagTable = ({ bags, zone }: { bags: readonly BagToWarm[]; zone: string }) => (
  <table className={styles.table}>
    <thead>
      <tr>
        <th scope="col">Due</th>
        <th scope="col">Bed</th>
        <th scope="col">Bag</th>
      </tr>
    </thead>
    <tbody>
      {bags.map((bag) => (
        <tr key={`${bag.bed} ${bag.at}`}>
          <td className="mono">{formatClock(bag.at as EpochMs, zone)}</td>
          <th scope="row">{bag.bed}</th>
          <td>{bagWords(bag)}</td>
        </tr>
      ))}
    </tbody>
  </table>
);
