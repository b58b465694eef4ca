import type { WallRow } from '@slackwater/domain';
import type { EpochMs } from '@slackwater/domain/time/instant';
import type { Placed } from '../board/moment.ts';
import { HALF_HOUR_MS } from '../board/strip/slots.ts';

const COLUMNS = 10;
const BEDS_ABREAST = 2;
/** More beds beyond the columns than this stand below them, so many abreast. */
const BEYOND_BESIDE = 2;
const BEYOND_ABREAST = 6;
/** Heights in units of the wall (a pixel of 1,920 x 1,080): a line of beds; clock times, paddings and edges. */
const LINE = 45;
const COLUMN_EDGES = 50;
const BEYOND_EDGE = 10;

export type LaterHours = {
  /** Beds by the half hour, from the first full hour on. */
  columns: readonly { from: EpochMs; placed: readonly Placed<WallRow>[] }[];
  /** Those that no column holds: later than the last, or at no known time. */
  beyond: readonly Placed<WallRow>[];
  /** There are too many beyond to stand beside the columns. */
  isBeyondBelow: boolean;
};

/** The beds of the later hours in columns of half an hour. @param firstOfHour where the first column begins */
export const laterHours = (placed: readonly Placed<WallRow>[], firstOfHour: EpochMs): LaterHours => {
  const end = firstOfHour + COLUMNS * HALF_HOUR_MS;
  const between = (from: EpochMs, to: EpochMs) =>
    placed.filter(({ moment: { at } }) => at !== null && at >= from && at < to);
  const beyond = placed.filter(({ moment: { at } }) => at === null || at < firstOfHour || at >= end);
  return {
    columns: Array.from({ length: COLUMNS }, (_, index) => {
      const from = firstOfHour + index * HALF_HOUR_MS;
      return { from, placed: between(from, from + HALF_HOUR_MS) };
    }),
    beyond,
    isBeyondBelow: beyond.length > BEYOND_BESIDE,
  };
};

/** How many units of the wall's height they take: what they leave belongs to the rows above. */
export const laterHeight = ({ columns, beyond, isBeyondBelow }: LaterHours): number => {
  const lines = Math.max(1, ...columns.map(({ placed }) => Math.ceil(placed.length / BEDS_ABREAST)));
  const ofColumns = COLUMN_EDGES + lines * LINE;
  if (isBeyondBelow) return ofColumns + Math.ceil(beyond.length / BEYOND_ABREAST) * LINE + BEYOND_EDGE;
  return Math.max(ofColumns, beyond.length * LINE + BEYOND_EDGE);
};
