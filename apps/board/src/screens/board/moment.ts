import type { BoardRow, Group, OpenAlert, RowAt, WallRow } from '@slackwater/domain';
import { ownerAt } from '@slackwater/domain/alert/owner';
import type { EpochMs } from '@slackwater/domain/time/instant';
import { byGravity, type Standing, standingAt } from '../../components/alert-flag/standing.ts';
import { AHEAD_MS } from '../../components/ribbon/axis.ts';

/** What the passing of time makes of a row, the minutes apart: while none of it changes, the row is not drawn again. */
export type Moment = {
  group: Group;
  word: RowAt['word'];
  at: EpochMs | null;
  /** The alert that stands first: the highest rank, then the one that nobody has, then the oldest. */
  alert: OpenAlert | null;
  standing: Standing | null;
  /** Account that has it. */
  owner: string | null;
  moreAlerts: number;
  /** The ward day of the balance is over. */
  dayOver: boolean;
  /** The account of the nurse whose shift holds this patient now. */
  nurse: string | null;
  /** Due beyond the end of the axis. */
  beyond: boolean;
};

export type AnyRow = BoardRow | WallRow;

export type Placed<Row extends AnyRow = BoardRow> = { row: Row; moment: Moment };

const momentOf = (row: AnyRow, { group, word, at }: RowAt, now: EpochMs): Moment => {
  const alert = row.alerts.length > 1 ? (row.alerts.toSorted(byGravity(now))[0] ?? null) : (row.alerts[0] ?? null);
  return {
    group,
    word,
    at,
    alert,
    standing: alert && standingAt(alert, now),
    owner: alert ? ownerAt(alert, now) : null,
    moreAlerts: Math.max(0, row.alerts.length - 1),
    dayOver: now >= row.day.to,
    nurse: row.nurse && now < row.nurse.to ? row.nurse.accountId : null,
    beyond: row.due !== null && row.due.dueAt > now + AHEAD_MS,
  };
};

const same = (a: Moment, b: Moment): boolean => (Object.keys(a) as (keyof Moment)[]).every((key) => a[key] === b[key]);

/** A row and its moment: the same object as before when nothing in it changed. */
export const placed = <Row extends AnyRow>(
  row: Row,
  at: RowAt,
  now: EpochMs,
  before: Placed<Row> | undefined,
): Placed<Row> => {
  const moment = momentOf(row, at, now);
  return before && before.row === row && same(before.moment, moment) ? before : { row, moment };
};
