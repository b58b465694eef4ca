import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { at, byLength, dwelling, fillOf, orderOf, revisionOf } from '../testing/bedside.ts';
import { rowOf } from '../testing/row.ts';
import { HOUR_MS, MINUTE_MS } from '../time/instant.ts';
import { clashForecast } from './clash-forecast.ts';
import { drainWindow } from './drain-window.ts';

const NOW = at('2026-11-25T12:00Z');
const FAR = NOW + 10 * HOUR_MS;
const inMinutes = (minutes: number) => NOW + minutes * MINUTE_MS;
const TEMPLATE = rowOf(dwelling(revisionOf([byLength('a', 240)]), 'a', NOW - HOUR_MS));
const nurseOf = (accountId: string) => ({ accountId, name: accountId, from: 0, to: FAR });

const row = (bed: string, minutes: number, windowMinutes = 0, nurse = 'tolland') => ({
  bed,
  nurse: nurseOf(nurse),
  due: { ...TEMPLATE.due!, dueAt: inMinutes(minutes) },
  drainWindow:
    windowMinutes === 0 ? null : { from: inMinutes(minutes - windowMinutes), to: inMinutes(minutes + windowMinutes) },
});
const forecast = (rows: readonly ReturnType<typeof row>[], atOnce = 1) => clashForecast(rows, NOW, FAR, atOnce);

/** The plain form of the rule: drains of one nurse by their beginning, each compared with every other. */
type Begin = { bed: string; dueAt: number; at: number; window: { from: number; to: number } | null };
const isBefore = (one: Begin, other: Begin) => one.at < other.at || (one.at === other.at && one.bed < other.bed);
const running = (all: readonly Begin[], drain: Begin) =>
  all.filter((one) => one === drain || (isBefore(one, drain) && one.at > drain.at - 30 * MINUTE_MS));
const over = (all: readonly Begin[], atOnce: number) =>
  all.reduce((sum, drain) => sum + Math.max(0, running(all, drain).length - atOnce), 0);
const begins = (lane: readonly ReturnType<typeof row>[]): Begin[] =>
  lane
    .map(({ bed, due, drainWindow: window }) => ({ bed, dueAt: due.dueAt, at: due.dueAt, window }))
    .sort((a, b) => (isBefore(a, b) ? -1 : 1));

function plainCollisions(lane: readonly ReturnType<typeof row>[], atOnce: number): string[][] {
  const all = begins(lane);
  const groups: Set<string>[] = [];
  for (const drain of all) {
    const beds = running(all, drain).map(({ bed }) => bed);
    if (beds.length <= atOnce) continue;
    const last = groups.at(-1);
    if (last && beds.some((bed) => last.has(bed))) for (const bed of beds) last.add(bed);
    else groups.push(new Set(beds));
  }
  return groups.map((group) => [...group]);
}

function plainMoves(lane: readonly ReturnType<typeof row>[], atOnce: number): Map<string, number> {
  let all = begins(lane);
  for (;;) {
    const tries = all.flatMap((drain) => {
      if (drain.window === null || drain.at !== drain.dueAt) return [];
      const times: number[] = [];
      for (let step = -24; step <= 24; step += 1) times.push(drain.dueAt + step * 5 * MINUTE_MS);
      const { from, to } = drain.window;
      return times
        .filter((time) => time !== drain.dueAt && time >= Math.max(from, NOW) && time <= to)
        .map((time) => all.map((one) => (one === drain ? { ...one, at: time } : one)))
        .map((next) => ({ next, left: over(next, atOnce), far: farOf(next) - farOf(all) }));
    });
    const best = tries.sort((a, b) => a.left - b.left || a.far - b.far)[0];
    if (!best || best.left >= over(all, atOnce)) break;
    all = best.next;
  }
  return new Map(all.filter(({ at: time, dueAt }) => time !== dueAt).map(({ bed, at: time }) => [bed, time]));
}
const farOf = (all: readonly Begin[]) => all.reduce((sum, { at: time, dueAt }) => sum + Math.abs(time - dueAt), 0);

describe('drains that collide', () => {
  it('are those of one nurse that begin while she has as many as she can run', () => {
    const rows = [row('4', 120), row('7', 120), row('9', 150), row('2', 120, 0, 'marsh')];
    expect(forecast(rows).collisions).toEqual([
      { nurse: { accountId: 'tolland', name: 'tolland' }, from: inMinutes(120), beds: ['4', '7'] },
    ]);
    expect(forecast(rows, 2).collisions).toEqual([]);
  });
  it('are proposed the nearest time within a window that parts them', () => {
    expect(forecast([row('4', 120), row('7', 120, 60)]).proposals).toEqual([
      { bed: '7', nurse: { accountId: 'tolland', name: 'tolland' }, dueAt: inMinutes(120), at: inMinutes(90) },
    ]);
  });
  it('are proposed nothing where no window lets them, and nothing that lies in the past', () => {
    expect(forecast([row('4', 120), row('7', 120, 25)]).proposals).toEqual([]);
    expect(forecast([row('4', 10), row('7', 10, 30)]).proposals).toMatchObject([{ bed: '7', at: inMinutes(40) }]);
  });

  const rows = fc
    .array(
      fc.tuple(
        fc.integer({ min: 0, max: 300 }),
        fc.constantFrom(0, 15, 30, 60, 120),
        fc.constantFrom('tolland', 'marsh'),
      ),
      { maxLength: 12 },
    )
    .map((list) => list.map(([minutes, window, nurse], index) => row(String(index), minutes, window, nurse)));

  it('are never more once every proposal was followed, and every proposal lies within its window', () => {
    /** By how many each drain finds its nurse over what she can run, when it begins: counted in the order of time. */
    const load = (of: readonly ReturnType<typeof row>[], atOnce: number) => {
      let over = 0;
      for (const [, all] of Map.groupBy(of, ({ nurse }) => nurse.accountId)) {
        const begins = all.map(({ due }) => due.dueAt).sort((a, b) => a - b);
        begins.forEach((begin, index) => {
          const before = begins.slice(0, index).filter((earlier) => begin - earlier < 30 * MINUTE_MS).length;
          over += Math.max(0, before + 1 - atOnce);
        });
      }
      return over;
    };
    fc.assert(
      fc.property(rows, fc.integer({ min: 1, max: 3 }), (before, atOnce) => {
        const { proposals } = forecast(before, atOnce);
        const after = before.map((one) => {
          const proposal = proposals.find(({ bed }) => bed === one.bed);
          return proposal ? { ...one, due: { ...one.due, dueAt: proposal.at } } : one;
        });
        for (const { bed, at: time } of proposals) {
          const window = before.find((one) => one.bed === bed)!.drainWindow!;
          expect(time).toBeGreaterThanOrEqual(Math.max(window.from, NOW));
          expect(time).toBeLessThanOrEqual(window.to);
        }
        if (proposals.length === 0) expect(after).toEqual(before);
        else expect(load(after, atOnce)).toBeLessThan(load(before, atOnce));
      }),
    );
  });
  it('are those that comparing every drain with every other finds, and the moves those that trying every one finds', () => {
    fc.assert(
      fc.property(rows, fc.integer({ min: 1, max: 3 }), (list, atOnce) => {
        const { collisions, proposals } = forecast(list, atOnce);
        const lanes = ['marsh', 'tolland'].map((nurse) => list.filter((one) => one.nurse.accountId === nurse));
        expect(collisions.map(({ beds }) => beds)).toEqual(lanes.flatMap((lane) => plainCollisions(lane, atOnce)));
        const moved = new Map(proposals.map(({ bed, at: time }) => [bed, time]));
        expect(moved).toEqual(new Map(lanes.flatMap((lane) => [...plainMoves(lane, atOnce)])));
      }),
    );
  });
  it('are the same whichever row comes first', () => {
    fc.assert(
      fc.property(rows, (list) => {
        expect(forecast(list.toReversed())).toEqual(forecast(list));
      }),
    );
  });
});

describe('the window of a drain', () => {
  const revision = revisionOf([{ ...byLength('a', 240), windowMinutes: 60 }]);
  const filledAt = NOW - HOUR_MS;
  const due = filledAt + 4 * HOUR_MS;
  it('is the prescription’s, either way', () => {
    expect(drainWindow(dwelling(revision, 'a', filledAt))).toEqual({ from: due - HOUR_MS, to: due + HOUR_MS });
    expect(drainWindow(dwelling(revisionOf([byLength('a', 240)]), 'a', filledAt))).toBeNull();
  });
  it('never begins before an antibiotic has dwelt its least time', () => {
    const additive = {
      name: 'vancomycin',
      amount: 1,
      unit: 'g',
      kind: 'antibiotic',
      minimumDwellMinutes: 220,
    } as const;
    const fill = { ...fillOf(filledAt, { itemId: 'a', revisionId: revision.id }), additives: [additive] };
    const state = dwelling(revision, 'a', filledAt, {
      cavity: { state: 'holding', since: filledAt, fills: [fill] } as never,
    });
    expect(drainWindow(state)).toEqual({ from: filledAt + 220 * MINUTE_MS, to: due + HOUR_MS });
  });
  it('is none where a physician ordered the time', () => {
    const order = orderOf({ what: 'dueAt', dueAt: due - 10 * MINUTE_MS }, filledAt + MINUTE_MS);
    expect(drainWindow(dwelling(revision, 'a', filledAt, { orders: [order] }))).toBeNull();
  });
});
