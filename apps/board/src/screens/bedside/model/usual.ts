import type { Dwell } from '@slackwater/domain';
import { minutesBetween } from '@slackwater/domain/time/instant';

/** How long this patient's drains take: the middle one and the shortest and longest, minutes. */
export type Usual = { minutes: number; least: number; most: number; of: number };

const drainMinutes = (dwell: Dwell): number | null => {
  const first = dwell.drains[0];
  if (dwell.drains.length !== 1 || !first || first.endedAt === null) return null;
  return Math.round(minutesBetween(first.startedAt, first.endedAt));
};

/** The usual length of a drain, from the last dwells; dwells drained in several goes say nothing. null when none does. */
export const usualDrain = (dwells: readonly Dwell[]): Usual | null => {
  const minutes = dwells
    .map(drainMinutes)
    .filter((one) => one !== null)
    .sort((a, b) => a - b);
  const least = minutes[0];
  const most = minutes.at(-1);
  const middle = minutes[Math.floor(minutes.length / 2)];
  if (least === undefined || most === undefined || middle === undefined) return null;
  return { minutes: middle, least, most, of: minutes.length };
};
