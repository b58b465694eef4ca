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

/**
 * For each drain the place of the first that still runs when it begins; of two at one time the first bed begins first.
 * @param times ascending
 */
function firstRunning(times: readonly EpochMs[]): readonly number[] {
  let first = 0;
  return times.map((at) => {
    while (times[first]! <= at - HOLDS_MS) first += 1;
    return first;
  });
}

/**
 * By how many drains the nurse is over what she can run, summed over the moments in which one begins.
 * @param times ascending
 */
const tooMany = (times: readonly EpochMs[], atOnce: number): number =>
  firstRunning(times).reduce((sum, first, place) => sum + Math.max(0, place - first + 1 - atOnce), 0);

function collisionsOf(drains: readonly Drain[], atOnce: number): { from: EpochMs; beds: readonly string[] }[] {
  const inOrder = drains.toSorted(byTime);
  /** Places in `inOrder`, both inclusive. */
  const groups: { first: number; last: number }[] = [];
  for (const [place, first] of firstRunning(inOrder.map(({ at }) => at)).entries()) {
    if (place - first + 1 <= atOnce) continue;
    const before = groups.at(-1);
    if (before && first <= before.last) before.last = place;
    else groups.push({ first, last: place });
  }
  return groups.map(({ first, last }) => ({
    from: inOrder[first]!.at,
    beds: inOrder.slice(first, last + 1).map(({ bed }) => bed),
  }));
}

/** Moves one drain at a time, the one that helps most and the least far, until none helps. */
function spread(drains: readonly Drain[], from: EpochMs, atOnce: number): readonly Drain[] {
  const now = tooMany(timesOf(drains), atOnce);
  if (now === 0) return drains;
  let best: Move | null = null;
  for (const drain of drains) {
    const others = timesOf(drains.filter((one) => one !== drain));
    const left = tooMany(others, atOnce);
    const times = timesFor(drain, from);
    for (const [index, more] of addedBy(times, others, atOnce).entries()) {
      const move = { drain, at: times[index]!, left: left + more, farMs: Math.abs(times[index]! - drain.dueAt) };
      if (move.left < now && (best === null || isBetter(move, best))) best = move;
    }
  }
  if (best === null) return drains;
  const { drain, at } = best;
  return spread(
    drains.map((one) => (one === drain ? { ...one, at } : one)),
    from,
    atOnce,
  );
}

type Move = { drain: Drain; at: EpochMs; left: number; farMs: number };
const isBetter = (one: Move, other: Move): boolean =>
  one.left < other.left || (one.left === other.left && one.farMs < other.farMs);

/** When each begins, ascending. */
const timesOf = (drains: readonly Drain[]): readonly EpochMs[] => drains.map(({ at }) => at).sort((a, b) => a - b);

/**
 * By how much one more drain raises `tooMany` of the others, for each time at which it may begin: what it finds running
 * itself, and one for each drain that begins while it runs and finds the nurse full without it.
 * @param times ascending, as are `others`
 */
function addedBy(times: readonly EpochMs[], others: readonly EpochMs[], atOnce: number): readonly number[] {
  const isFull = firstRunning(others).map((first, place) => place - first + 1 >= atOnce);
  let near = 0;
  return times.map((at) => {
    while (others[near]! <= at - HOLDS_MS) near += 1;
    let place = near;
    while (others[place]! <= at) place += 1;
    let more = Math.max(0, place - near + 1 - atOnce);
    for (; others[place]! < at + HOLDS_MS; place += 1) if (isFull[place]) more += 1;
    return more;
  });
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
