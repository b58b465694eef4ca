import type { BoardRow, OpenAlert } from '@slackwater/domain';
import { ownerAt } from '@slackwater/domain/alert/owner';
import type { EpochMs } from '@slackwater/domain/time/instant';
import { byGravity, type Standing, standingAt } from '../../components/alert-flag/standing.ts';

/** An open alert with the row of its patient. */
export type Open = { alert: OpenAlert; row: BoardRow; standing: Standing };

/** All open alerts of the ward, the gravest first. */
export const openAlerts = (rows: readonly BoardRow[], now: EpochMs): readonly Open[] => {
  const order = byGravity(now);
  return rows
    .flatMap((row) => row.alerts.map((alert) => ({ alert, row, standing: standingAt(alert, now) })))
    .sort((a, b) => order(a.alert, b.alert));
};

/** Somebody has it: this person. Nobody has it: this person's patient. */
export const isMine = ({ alert, row }: Open, accountId: string, now: EpochMs): boolean => {
  const owner = ownerAt(alert, now);
  if (owner !== null) return owner === accountId;
  return row.nurse !== null && now < row.nurse.to && row.nurse.accountId === accountId;
};
