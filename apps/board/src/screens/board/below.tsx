import { formatClock } from '@slackwater/domain/words/numbers';
import { type RefObject, useEffect, useState } from 'react';
import styles from './below.module.css';
import { GROUPS, type Order } from './order.ts';
import { GROUP_WORDS } from './words.ts';

/** What lies below the edge is said: groups that are out of sight, their next bed, how many rows. */
export const Below = ({ order, zone, page }: { order: Order; zone: string; page: RefObject<HTMLElement | null> }) => {
  const hidden = useHiddenRows(page, order);
  if (hidden.rows === 0) return null;
  return (
    <aside className={styles.below} aria-label="Below the edge">
      {GROUPS.filter((group) => hidden.groups.includes(group) && order[group].length > 0).map((group) => {
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
      <span className={styles.rows}>{hidden.rows} rows below</span>
    </aside>
  );
};

type Hidden = { rows: number; groups: readonly string[] };

const NONE: Hidden = { rows: 0, groups: [] };

/** Rows below the edge of the scrolling list, and groups none of whose rows is seen. */
const useHiddenRows = (page: RefObject<HTMLElement | null>, order: Order): Hidden => {
  const [hidden, setHidden] = useState(NONE);
  // biome-ignore lint/correctness/useExhaustiveDependencies: another order puts other rows on the page
  useEffect(() => {
    const list = page.current?.querySelector<HTMLElement>('[data-scrolls]');
    if (!list) return;
    const below = new Set<Element>();
    const observer = new IntersectionObserver(
      (entries) => {
        for (const { target, isIntersecting, boundingClientRect, rootBounds } of entries) {
          const isBelow = !isIntersecting && rootBounds !== null && boundingClientRect.top >= rootBounds.top;
          if (isBelow) below.add(target);
          else below.delete(target);
        }
        const sections = [...list.querySelectorAll<HTMLElement>('[data-group]')];
        setHidden({
          rows: below.size,
          groups: sections
            .filter((section) => [...section.querySelectorAll('[data-bed]')].every((row) => below.has(row)))
            .map((section) => section.dataset.group ?? ''),
        });
      },
      { root: list, threshold: 0.5 },
    );
    for (const row of list.querySelectorAll('[data-bed]')) observer.observe(row);
    return () => observer.disconnect();
  }, [page, order]);
  return hidden;
};
