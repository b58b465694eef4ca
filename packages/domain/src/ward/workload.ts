import { type EpochMs, MINUTE_MS } from '../time/instant.ts';
import type { BoardRow } from './board-row.ts';

type PlannedRow = Pick<BoardRow, 'bed' | 'due' | 'laterDrainsAt' | 'nurse'>;

/** One drain (or fill) to come; `planned`: its dwell does not run yet. */
export type ToCome = { at: EpochMs; bed: string; planned: boolean };

/** What one nurse has to come, by time; null = nobody is assigned. */
export type Lane = { nurse: { accountId: string; name: string } | null; toCome: readonly ToCome[] };

/** One half hour: how many fall due on the ward, and the nurses who have any. */
export type HalfHour = {
  from: EpochMs;
  to: EpochMs;
  count: number;
  byNurse: readonly { accountId: string | null; name: string | null; count: number }[];
};

export type Workload = { lanes: readonly Lane[]; halfHours: readonly HalfHour[] };

const HALF_HOUR_MS = 30 * MINUTE_MS;

/** What falls due at a bed within a time, the one that runs first. A hold's review is nobody's work at the bed. */
export function toComeOf(row: Omit<PlannedRow, 'nurse'>, from: EpochMs, to: EpochMs): ToCome[] {
  const running = row.due === null || row.due.what === 'review' ? [] : [row.due.dueAt];
  const { bed } = row;
  return [
    ...running.map((at) => ({ at, bed, planned: false })),
    ...row.laterDrainsAt.map((at) => ({ at, bed, planned: true })),
  ].filter(({ at }) => at >= from && at < to);
}

/**
 * What falls due from one instant to another, by nurse and by half hour, so that clashes are seen before they happen.
 * Half hours are those of the clock.
 */
export function workload(rows: readonly PlannedRow[], from: EpochMs, to: EpochMs): Workload {
  const lanes = new Map<string | null, { nurse: Lane['nurse']; toCome: ToCome[] }>();
  for (const row of rows) {
    const key = row.nurse?.accountId ?? null;
    const nurse = row.nurse && { accountId: row.nurse.accountId, name: row.nurse.name };
    const lane = lanes.get(key) ?? { nurse, toCome: [] };
    lanes.set(key, lane);
    lane.toCome.push(...toComeOf(row, from, to));
  }
  const sorted = [...lanes.values()].map((lane) => ({ ...lane, toCome: lane.toCome.sort((a, b) => a.at - b.at) }));
  return { lanes: sorted, halfHours: halfHoursOf(sorted, from, to) };
}

function halfHoursOf(lanes: readonly Lane[], from: EpochMs, to: EpochMs): HalfHour[] {
  const halfHours: HalfHour[] = [];
  for (let start = Math.floor(from / HALF_HOUR_MS) * HALF_HOUR_MS; start < to; start += HALF_HOUR_MS) {
    const end = start + HALF_HOUR_MS;
    const byNurse = lanes
      .map(({ nurse, toCome }) => ({
        accountId: nurse?.accountId ?? null,
        name: nurse?.name ?? null,
        count: toCome.filter(({ at }) => at >= start && at < end).length,
      }))
      .filter(({ count }) => count > 0);
    const count = byNurse.reduce((sum, one) => sum + one.count, 0);
    halfHours.push({ from: start, to: end, count, byNurse });
  }
  return halfHours;
}

/** A half hour in which too much falls together; `nurse` when it is hers, null when only the ward's sum is too high. */
export type Clash = { from: EpochMs; to: EpochMs; count: number; nurse: { name: string; count: number } | null };

/** What one nurse, and what the ward, can do in half an hour (common practice). */
const MOST_FOR_NURSE = 2;
const MOST_FOR_WARD = 3;

/** The half hours with three or more for one nurse, or four or more on the ward. */
export function clashes(halfHours: readonly HalfHour[]): readonly Clash[] {
  return halfHours.flatMap(({ from, to, count, byNurse }) => {
    const busiest = byNurse
      .filter((one) => one.accountId !== null && one.count > MOST_FOR_NURSE)
      .sort((a, b) => b.count - a.count)[0];
    if (!busiest && count <= MOST_FOR_WARD) return [];
    return [{ from, to, count, nurse: busiest ? { name: busiest.name ?? '', count: busiest.count } : null }];
  });
}
