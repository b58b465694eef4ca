import { type EpochMs, MINUTE_MS } from '../time/instant.ts';
import type { BoardRow } from './board-row.ts';

type ForecastRow = Pick<BoardRow, 'bed' | 'due' | 'drainWindow' | 'nurse'>;

/** How long a drain holds a nurse: the half hour of the workload (common practice). */
const HOLDS_MS = 30 * MINUTE_MS;
/** Proposed times lie whole steps from the due time. */
const STEP_MS = 5 * MINUTE_MS;

/** Drains of one nurse that begin while she already has as many as she can run. */
export type Collision = { nurse: { accountId: string; name: string }; from: EpochMs; beds: readonly string[] };

/** One drain that may go at another time, within its window. */
export type Proposal = { bed: string; nurse: Collision['nurse']; dueAt: EpochMs; at: EpochMs };

export type Forecast = { collisions: readonly Collision[]; proposals: readonly Proposal[] };

type Drain = { bed: string; dueAt: EpochMs; at: EpochMs; window: ForecastRow['drainWindow'] };

/**
 * Which drains collide for the nurse who has them, and who can go first or later within the prescription's window.
 * A proposal changes nothing by itself. All proposals together leave fewer collisions than there were, each bed is
 * moved once at most, and the answer does not depend on the order of the rows.
 * @param atOnce how many drains one nurse can run at once, from 1
 * @param from no proposal is earlier; drains due from here to `to` are looked at
 */
export function clashForecast(rows: readonly ForecastRow[], from: EpochMs, to: EpochMs, atOnce: number): Forecast {
  const byNurse = new Map<string, { nurse: Collision['nurse']; drains: Drain[] }>();
  for (const { bed, due, drainWindow, nurse } of rows) {
    if (nurse?.accountId == null || due?.what !== 'drain' || due.dueAt < from || due.dueAt >= to) continue;
    const { accountId, name } = nurse;
    const lane = byNurse.get(accountId) ?? { nurse: { accountId, name }, drains: [] };
    byNurse.set(accountId, lane);
    lane.drains.push({ bed, dueAt: due.dueAt, at: due.dueAt, window: drainWindow });
  }
  const lanes = [...byNurse.values()].sort((a, b) => compare(a.nurse.accountId, b.nurse.accountId));
  return {
    collisions: lanes.flatMap(({ nurse, drains }) => collisionsOf(drains, atOnce).map((one) => ({ nurse, ...one }))),
    proposals: lanes
      .flatMap(({ nurse, drains }) =>
        spread(drains.sort(byTime), from, atOnce)
          .filter(({ at, dueAt }) => at !== dueAt)
          .map(({ bed, dueAt, at }) => ({ bed, nurse, dueAt, at })),
      )
      .sort((a, b) => a.dueAt - b.dueAt || compare(a.bed, b.bed)),
  };
}

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
const byTime = (a: Drain, b: Drain): number => a.at - b.at || compare(a.bed, b.bed);

/** The drains that run when one begins, that one among them; of two at one time the first bed begins first. */
const runningAt = (drains: readonly Drain[], drain: Drain): readonly Drain[] =>
  drains.filter((one) => byTime(one, drain) <= 0 && one.at > drain.at - HOLDS_MS);

/** By how many drains the nurse is over what she can run, summed over the moments in which one begins. */
const tooMany = (drains: readonly Drain[], atOnce: number): number =>
  drains.reduce((sum, drain) => sum + Math.max(0, runningAt(drains, drain).length - atOnce), 0);

function collisionsOf(drains: readonly Drain[], atOnce: number): { from: EpochMs; beds: readonly string[] }[] {
  const groups: Drain[][] = [];
  for (const drain of drains.toSorted(byTime)) {
    const running = runningAt(drains, drain);
    if (running.length <= atOnce) continue;
    const last = groups.at(-1);
    if (last?.some((one) => running.includes(one))) last.push(...running.filter((one) => !last.includes(one)));
    else groups.push([...running]);
  }
  return groups.map((group) => {
    const inOrder = group.toSorted(byTime);
    return { from: inOrder[0]!.at, beds: inOrder.map(({ bed }) => bed) };
  });
}

/** Moves one drain at a time, the one that helps most and the least far, until none helps. */
function spread(drains: readonly Drain[], from: EpochMs, atOnce: number): readonly Drain[] {
  const now = tooMany(drains, atOnce);
  if (now === 0) return drains;
  let best: { drains: readonly Drain[]; left: number; farMs: number } | null = null;
  for (const drain of drains) {
    for (const at of timesFor(drain, from)) {
      const moved = drains.map((one) => (one === drain ? { ...one, at } : one));
      const left = tooMany(moved, atOnce);
      const farMs = Math.abs(at - drain.dueAt);
      if (left >= now || (best && (left > best.left || (left === best.left && farMs >= best.farMs)))) continue;
      best = { drains: moved, left, farMs };
    }
  }
  return best === null ? drains : spread(best.drains, from, atOnce);
}

/** Where a drain that was not moved yet may go: whole steps from its due time, earlier ones first. */
function timesFor({ at, dueAt, window }: Drain, from: EpochMs): readonly EpochMs[] {
  if (window === null || at !== dueAt) return [];
  const times: EpochMs[] = [];
  const earliest = Math.max(window.from, from);
  for (let time = dueAt - Math.floor((dueAt - earliest) / STEP_MS) * STEP_MS; time <= window.to; time += STEP_MS) {
    if (time !== dueAt && time >= earliest) times.push(time);
  }
  return times;
}
