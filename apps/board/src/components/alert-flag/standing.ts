import type { OpenAlert } from '@slackwater/domain';
import { ownerAt } from '@slackwater/domain/alert/owner';
import type { EpochMs } from '@slackwater/domain/time/instant';

/** Who has an alert at an instant. A snooze has an end, and is nobody's having it. */
export type Standing = 'nobody' | 'snoozed' | 'held';

export const standingAt = (alert: OpenAlert, now: EpochMs): Standing => {
  if (ownerAt(alert, now) !== null) return 'held';
  return alert.snoozedUntil !== null && now < alert.snoozedUntil ? 'snoozed' : 'nobody';
};

export const RANKS = { high: 0, medium: 1, low: 2 } as const;
const STANDINGS = { nobody: 0, held: 1, snoozed: 2 } as const;

/** The gravest first; of equals the one that nobody has; then the oldest. */
export const byGravity =
  (now: EpochMs) =>
  (a: OpenAlert, b: OpenAlert): number =>
    RANKS[a.rank] - RANKS[b.rank] ||
    STANDINGS[standingAt(a, now)] - STANDINGS[standingAt(b, now)] ||
    a.raisedAt - b.raisedAt;

/** Since when nobody has it: from its raising, or from the end of the last acknowledgement or snooze. */
export const nobodySince = (alert: OpenAlert): EpochMs =>
  Math.max(alert.raisedAt, alert.owner?.until ?? 0, alert.snoozedUntil ?? 0);
