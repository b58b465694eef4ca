import type { WardView } from '@slackwater/contract';
import type { WallRow } from '@slackwater/domain';
import { type EpochMs, HOUR_MS } from '@slackwater/domain/time/instant';
import { clashes, workload } from '@slackwater/domain/ward/workload';
import { useMemo } from 'react';
import { familyName, shortNames } from '../../components/names.ts';
import { originAt } from '../../components/ribbon/axis.ts';
import { useEachMinute } from '../../live/now.ts';
import { useWall } from '../../live/use-ward.ts';
import { cx } from '../../ui/class-names.ts';
import { useOrder } from '../board/use-order.ts';
import { fitOf } from './fit.ts';
import { laterHeight, laterHours } from './later-hours.ts';
import { useUpkeep } from './use-upkeep.ts';
import styles from './wall.module.css';
import { WallEmpty } from './wall-empty.tsx';
import { WallGroup } from './wall-group.tsx';
import { WallLater } from './wall-later.tsx';
import { WallTop } from './wall-top.tsx';

/** The board for a wall, read at three metres: bed and initials, no input, nothing under 40 px on a 1,920 px screen. */
export const Wall = ({ ward }: { ward: WardView }) => {
  const live = useWall(ward.id);
  useUpkeep(live);
  const origin = useEachMinute(originAt);
  const rows = useMemo(() => (live.rows ? [...live.rows.byId.values()] : []), [live.rows]);
  const names = useMemo(() => wallNames(ward, rows), [ward, rows]);
  const stale = live.connection.state === 'stale';
  const order = useOrder(rows, stale ? live.connection.heardAt : null);
  const clashing = useMemo(() => clashes(workload(rows, origin, origin + 11 * HOUR_MS).halfHours), [rows, origin]);
  const firstOfHour = useEachMinute(firstOfLater);
  const hours = useMemo(() => laterHours(order.later, firstOfHour), [order.later, firstOfHour]);
  const { now, hour, close } = fitOf(order, laterHeight(hours));
  return (
    <div
      className={cx(styles.page, stale && styles.stale)}
      data-close={close || undefined}
      data-stream={live.connection.state}
    >
      <h1 className="sr">Wall display, {ward.name}</h1>
      <WallTop ward={ward} live={live} clashing={clashing} />
      <main className={styles.main}>
        <div className={styles.timed}>
          <div className={styles.lines} aria-hidden="true">
            <i className={styles.nowLine} />
          </div>
          <WallGroup group="now" placed={now} all={order.now} origin={origin} zone={ward.zone} names={names} />
          <WallGroup
            group="withinTheHour"
            placed={hour}
            all={order.withinTheHour}
            origin={origin}
            zone={ward.zone}
            names={names}
          />
        </div>
        <WallLater count={order.later.length} hours={hours} clashing={clashing} zone={ward.zone} />
        <WallEmpty placed={order.empty} later={order.later} zone={ward.zone} />
      </main>
    </div>
  );
};

/** The next full hour: nothing of Later falls due before it. */
const firstOfLater = (now: EpochMs): EpochMs => Math.floor((now + HOUR_MS) / HOUR_MS) * HOUR_MS;

/** A wall display may not read the ward's staff; whoever has a patient today stands in the rows. */
const wallNames = (ward: WardView, rows: readonly WallRow[]): ReadonlyMap<string, string> =>
  new Map([
    ...rows.flatMap(({ nurse }) => (nurse ? [[nurse.accountId, familyName(nurse.name)] as const] : [])),
    ...shortNames(ward.staff),
  ]);
