import { formatClock } from '@slackwater/domain/words/numbers';
import { type RefObject, useEffect, useState } from 'react';
import styles from './below.module.css';
import { GROUPS, type Order } from './order.ts';
import { GROUP_WORDS } from './words.ts';

/** What lies below the edge is said: groups that are out of sight, their next bed, how many rows. */
export const Below = ({ order, zone, page }: { order: Order; zone: string; page: RefObject<HTMLElement | null> }) => {
  const below = useBedsBelow(page, order);
  if (below.size === 0) return null;
  const hidden = GROUPS.filter(
    (group) => order[group].length > 0 && order[group].every(({ row }) => below.has(row.bed)),
  );
  return (
    <aside className={styles.below} aria-label="Below the edge">
      {hidden.map((group) => {
        const next = order[group].find(({ moment }) => moment.at !== null);
        return (
          <span key={group}>
            <b>{GROUP_WORDS[group]}</b> {order[group].length} {order[group].length === 1 ? 'bed' : 'beds'}
            {group !== 'empty' && next?.moment.at && (
              <>
                , next <b>Bed {next.row.bed}</b> at <b>{formatClock(next.moment.at, zone)}</b>
              </>
            )}
          </span>
        );
      })}
      <span className={styles.rows}>{below.size} rows below</span>
    </aside>
  );
};

type Watch = { list: HTMLElement; observer: IntersectionObserver; below: Set<HTMLElement> };

const bedsOf = (rows: ReadonlySet<HTMLElement>): ReadonlySet<string> =>
  new Set([...rows].map((row) => row.dataset.bed ?? ''));

/** Beds whose rows lie below the edge of the scrolling list. */
const useBedsBelow = (page: RefObject<HTMLElement | null>, order: Order): ReadonlySet<string> => {
  const [beds, setBeds] = useState<ReadonlySet<string>>(new Set());
  const [watch, setWatch] = useState<Watch | null>(null);
  useEffect(() => {
    const list = page.current?.querySelector<HTMLElement>('[data-scrolls]');
    if (!list) return;
    const below = new Set<HTMLElement>();
    const observer = new IntersectionObserver(
      (entries) => {
        for (const { target, isIntersecting, boundingClientRect, rootBounds } of entries) {
          const isBelow = !isIntersecting && rootBounds !== null && boundingClientRect.top >= rootBounds.top;
          if (isBelow) below.add(target as HTMLElement);
          else below.delete(target as HTMLElement);
        }
        setBeds(bedsOf(below));
      },
      { root: list, threshold: 0.5 },
    );
    setWatch({ list, observer, below });
    return () => observer.disconnect();
  }, [page]);
  // Another order puts other rows on the page: one that went to another group is another element there.
  // biome-ignore lint/correctness/useExhaustiveDependencies: the order is what the list then shows
  useEffect(() => {
    if (watch === null) return;
    const { list, observer, below } = watch;
    const gone = [...below].filter((row) => !row.isConnected);
    for (const row of gone) below.delete(row);
    if (gone.length > 0) setBeds(bedsOf(below));
    // one that is watched already is not told of again
    for (const row of list.querySelectorAll('[data-bed]')) observer.observe(row);
  }, [watch, order]);
  return beds;
};
