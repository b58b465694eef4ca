import { ALERT_TITLES } from '@slackwater/domain/alert/alert';
import { useEffect, useRef, useState } from 'react';
import { GROUPS, type Order } from './order.ts';
import { STATE_WORDS } from './words.ts';

type Said = { word: string; alertId: string | null };

/** Worth saying aloud when a row comes into it; the minutes in between are silent. */
const THRESHOLDS: ReadonlySet<string> = new Set(['due', 'overdue']);

const saidOf = (order: Order): ReadonlyMap<string, Said> =>
  new Map(
    GROUPS.flatMap((group) =>
      order[group].map(
        ({ row, moment }) => [row.bed, { word: moment.word, alertId: moment.alert?.id ?? null }] as const,
      ),
    ),
  );

/** Reads out thresholds only: a drain that falls due or overdue, a new high alert. The countdowns themselves are silent. */
export const Announcer = ({ order }: { order: Order }) => {
  const before = useRef<ReadonlyMap<string, Said> | null>(null);
  const [words, setWords] = useState('');
  useEffect(() => {
    const earlier = before.current;
    before.current = saidOf(order);
    if (earlier === null) return;
    const news = GROUPS.flatMap((group) => order[group]).flatMap(({ row, moment }) => {
      const was = earlier.get(row.bed);
      const alert = moment.alert;
      if (alert?.rank === 'high' && was?.alertId !== alert.id) {
        return [`Bed ${row.bed}: high alert, ${ALERT_TITLES[alert.kind].toLowerCase()}.`];
      }
      return THRESHOLDS.has(moment.word) && was?.word !== moment.word
        ? [`Bed ${row.bed}: ${STATE_WORDS[moment.word]}.`]
        : [];
    });
    if (news.length > 0) setWords(news.join(' '));
  }, [order]);
  return (
    <p className="sr" role="status">
      {words}
    </p>
  );
};
