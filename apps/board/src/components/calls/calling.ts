import type { BoardRow, OpenAlert } from '@slackwater/domain';
import type { EpochMs } from '@slackwater/domain/time/instant';
import { standingAt } from '../alert-flag/standing.ts';

export type Calling = { alert: OpenAlert; bed: string };

/** High alerts that nobody has: these call until somebody does. Whoever acknowledges or snoozes stops it, in the record. */
export const callingAt = (rows: Iterable<BoardRow>, now: EpochMs): readonly Calling[] =>
  [...rows].flatMap(({ alerts, bed }) =>
    alerts
      .filter((alert) => alert.rank === 'high' && standingAt(alert, now) === 'nobody')
      .map((alert) => ({ alert, bed })),
  );
