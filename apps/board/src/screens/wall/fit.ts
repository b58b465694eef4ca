import type { WallRow } from '@slackwater/domain';
import type { Placed } from '../board/moment.ts';
import type { Order } from '../board/order.ts';

/** Heights in units of the wall (a pixel of 1,920 x 1,080). */
/** What the top, the line of the empty and the edges leave to the rows and the later hours. */
const ROOM = 938;
const TALL = 77;
const LOW = 58;
/** A line for the beds of a group that have no row. */
const REST = 54;
/** The head of the hour takes two lines, also where no row of it has room. */
const HOUR_HEAD = 112;

export type Fit = {
  now: readonly Placed<WallRow>[];
  hour: readonly Placed<WallRow>[];
  /** Rows without an alert give up their clock, so that more have room. */
  close: boolean;
};

const heightOf = (one: Placed<WallRow>, close: boolean): number =>
  one.moment.alert !== null || (one.moment.group === 'now' && !close) ? TALL : LOW;

/** The rows from the top that have room, and what room is left. */
const fromTheTop = (rows: readonly Placed<WallRow>[], room: number, close: boolean) => {
  let left = room;
  let count = 0;
  for (const row of rows) {
    const height = heightOf(row, close);
    if (height > left) break;
    left -= height;
    count += 1;
  }
  return { taken: rows.slice(0, count), left };
};

/**
 * Which rows of Now and of the hour have room on the wall at a size that is read from three metres, the most urgent
 * first; of the others the beds are named in a line of their own.
 * @param laterHeight what the later hours below take of the room
 */
export const fitOf = (order: Pick<Order<WallRow>, 'now' | 'withinTheHour'>, laterHeight: number): Fit => {
  const room = ROOM - laterHeight;
  const all = [...order.now, ...order.withinTheHour];
  const needed = (close: boolean) => all.reduce((sum, row) => sum + heightOf(row, close), 0);
  const close = needed(false) > room;
  if (needed(close) <= room) return { now: order.now, hour: order.withinTheHour, close };
  const now = fromTheTop(order.now, room - HOUR_HEAD, close);
  if (now.taken.length === order.now.length) {
    const hour = fromTheTop(order.withinTheHour, now.left + HOUR_HEAD - REST, close);
    return { now: now.taken, hour: hour.taken, close };
  }
  return { now: fromTheTop(order.now, room - HOUR_HEAD - REST, close).taken, hour: [], close };
};
