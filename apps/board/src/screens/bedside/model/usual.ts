import type { Dwell, EpochMs } from '@slackwater/domain';
import { minutesBetween } from '@slackwater/domain/time/instant';

/** How long this patient's drains or fills take: the middle one and the shortest and longest, minutes. */
export type Usual = { minutes: number; least: number; most: number; of: number };

type Run = { startedAt: EpochMs | null; endedAt: EpochMs | null };

/** Minutes of a run that was one whole; several goes say nothing about how long one takes. */
const minutesOf = (runs: readonly Run[]): number | null => {
  const first = runs[0];
  if (runs.length !== 1 || !first || first.startedAt === null || first.endedAt === null) return null;
  return Math.round(minutesBetween(first.startedAt, first.endedAt));
};

const usualOf = (all: readonly (number | null)[]): Usual | null => {
  const minutes = all.filter((one) => one !== null).sort((a, b) => a - b);
  const least = minutes[0];
  const most = minutes.at(-1);
  const middle = minutes[Math.floor(minutes.length / 2)];
  if (least === undefined || most === undefined || middle === undefined) return null;
  return { minutes: middle, least, most, of: minutes.length };
};

/** The usual length of a drain, from the last dwells. null when none tells. */
export const usualDrain = (dwells: readonly Dwell[]): Usual | null =>
  usualOf(dwells.map((dwell) => minutesOf(dwell.drains)));

/** The usual length of a fill, from the last dwells. null when none tells. */
export const usualFill = (dwells: readonly Dwell[]): Usual | null =>
  usualOf(dwells.map((dwell) => minutesOf(dwell.fills)));
