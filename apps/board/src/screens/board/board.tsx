import type { WardView } from '@slackwater/contract';
import { useMemo, useRef } from 'react';
import { useMay } from '../../api/use-session.ts';
import { shortNames } from '../../components/names.ts';
import { originAt } from '../../components/ribbon/axis.ts';
import { StreamNotices } from '../../components/stream-notices.tsx';
import { TopLine } from '../../components/top-line/top-line.tsx';
import { useEachMinute } from '../../live/now.ts';
import { useBoard } from '../../live/use-ward.ts';
import { cx } from '../../ui/class-names.ts';
import { Announcer } from './announcer.tsx';
import { Axis, AxisLines } from './axis.tsx';
import { Below } from './below.tsx';
import styles from './board.module.css';
import { FirstRun } from './first-run.tsx';
import { BoardGroup } from './group.tsx';
import { GROUPS } from './order.ts';
import { Strip } from './strip/strip.tsx';
import { useOrder } from './use-order.ts';

/** The unit board: who needs somebody now, who is next and when, who is in trouble and who has it. */
export const Board = ({ ward }: { ward: WardView }) => {
  const live = useBoard(ward.id);
  const page = useRef<HTMLDivElement>(null);
  const origin = useEachMinute(originAt);
  const rows = useMemo(() => (live.rows ? [...live.rows.byId.values()] : []), [live.rows]);
  const names = useMemo(() => shortNames(ward.staff), [ward.staff]);
  const mayTake = useMay(ward.id, 'ownAlerts');
  const stale = live.connection.state === 'stale';
  const order = useOrder(rows, stale ? live.connection.heardAt : null);
  return (
    <div
      ref={page}
      className={cx(styles.page, stale && styles.stale, order.now.length > 8 && styles.crowded)}
      data-stream={live.connection.state}
    >
      <TopLine ward={ward} live={live} here="board" />
      <StreamNotices ward={ward} live={live} />
      <h1 className="sr">Unit board, {ward.name}</h1>
      <Strip
        rows={rows}
        order={order}
        origin={origin}
        ward={ward}
        names={names}
        frozenAt={stale ? live.connection.heardAt : null}
      />
      <main className={styles.board}>
        <Axis origin={origin} zone={ward.zone} />
        <div className={styles.groups} data-scrolls>
          <AxisLines origin={origin} />
          {GROUPS.map((group) => (
            <BoardGroup
              key={group}
              group={group}
              placed={order[group]}
              origin={origin}
              zone={ward.zone}
              names={names}
              wardId={ward.id}
              mayTake={mayTake}
              stale={stale}
            />
          ))}
        </div>
        {rows.length === 0 && <FirstRun ward={ward} />}
      </main>
      <Below order={order} zone={ward.zone} page={page} />
      <Announcer order={order} />
    </div>
  );
};
