import type { BoardRow, Group, OpenAlert, RowAt, WallRow } from '@slackwater/domain';
import { ownerAt } from '@slackwater/domain/alert/owner';
import type { EpochMs } from '@slackwater/domain/time/instant';
import { AHEAD_MS } from '../../components/ribbon/axis.ts';

/** What the passing of time makes of a row, the minutes apart: while none of it changes, the row is not drawn again. */
export type Moment = {
  group: Group;
  word: RowAt['word'];
  at: EpochMs | null;
  /** The alert that stands first: the highest rank, then the one that nobody has, then the oldest. */
  alert: OpenAlert | null;
  /** Account that has it; null = nobody. */
  owner: string | null;
  moreAlerts: number;
  /** The ward day of the balance is over. */
  dayOver: boolean;
  /** The account of the nurse whose shift holds this patient now. */
  nurse: string | null;
  /** Due beyond the end of the axis. */
  beyond: boolean;
  /** Set only where the drawing itself moves: while somebody is at the bed. */
  drawnAt: EpochMs | null;
};

export type AnyRow = BoardRow | WallRow;

export type Placed<Row extends AnyRow = BoardRow> = { row: Row; moment: Moment };

const RANKS = { high: 0, medium: 1, low: 2 } as const;

/** Alerts that ask for somebody now: snoozed ones wait. */
export const askingAt = (alerts: readonly OpenAlert[], now: EpochMs): readonly OpenAlert[] =>
  alerts
    .filter((alert) => alert.snoozedUntil === null || alert.snoozedUntil <= now)
    .toSorted(
      (a, b) =>
        RANKS[a.rank] - RANKS[b.rank] ||
        Number(ownerAt(a, now) !== null) - Number(ownerAt(b, now) !== null) ||
        a.raisedAt - b.raisedAt,
    );

const momentOf = (row: AnyRow, { group, word, at }: RowAt, now: EpochMs): Moment => {
  const asking = row.alerts.length === 0 ? row.alerts : askingAt(row.alerts, now);
  const alert = asking[0] ?? null;
  const runs = row.visit !== null;
  return {
    group,
    word,
    at,
    alert,
    owner: alert ? ownerAt(alert, now) : null,
    moreAlerts: Math.max(0, asking.length - 1),
    dayOver: now >= row.day.to,
    nurse: row.nurse && now < row.nurse.to ? row.nurse.accountId : null,
    beyond: row.due !== null && row.due.dueAt > now + AHEAD_MS,
    drawnAt: runs ? now : null,
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
