import type { WardView } from '@slackwater/contract';
import type { BoardRow } from '@slackwater/domain';
import { type EpochMs, HOUR_MS } from '@slackwater/domain/time/instant';
import { clashes, workload } from '@slackwater/domain/ward/workload';
import { memo, useMemo } from 'react';
import type { Order } from '../order.ts';
import { Answers } from './answers.tsx';
import { NurseLines } from './nurse-lines.tsx';
import styles from './strip.module.css';
import { WorkWords } from './work-words.tsx';

type StripProps = {
  rows: readonly BoardRow[];
  order: Order;
  origin: EpochMs;
  ward: WardView;
  names: ReadonlyMap<string, string>;
  frozenAt: EpochMs | null;
};

/** Three answers in words; what falls due by nurse and half hour on the ribbons' own axis; clashes and bags in words. */
export const Strip = memo(({ rows, order, origin, ward, names, frozenAt }: StripProps) => {
  const work = useMemo(() => workload(rows, origin, origin + 11 * HOUR_MS), [rows, origin]);
  const clashing = useMemo(() => clashes(work.halfHours), [work]);
  return (
    <section className={styles.strip} aria-label="What falls due">
      <Answers order={order} names={names} zone={ward.zone} frozenAt={frozenAt} />
      <NurseLines work={work} origin={origin} names={names} />
      <WorkWords rows={rows} clashing={clashing} ward={ward} />
    </section>
  );
});
