import { type EpochMs, HOUR_MS, MINUTE_MS, type Solution, type WardSettings } from '@slackwater/domain';
import { expectedUf } from '@slackwater/domain/cavity/expected';
import type { Chance } from './chance.ts';
import type { ScenarioItem } from './scenario.ts';

/** One past visit: the drain of what was inside, then the next fill. `null` drain: the first fill after admission. */
export type PastExchange = {
  drain: { startedAt: EpochMs; endedAt: EpochMs; drainedMl: number | null } | null;
  fill: { startedAt: EpochMs; endedAt: EpochMs; item: number };
};

const DAY_MINUTES = 24 * 60;
/** By clock, what lies between two fills less the time at the bed. */
const AT_THE_BED_MINUTES = 25;

const minutesOfDay = (clock: string): number => Number(clock.slice(0, 2)) * 60 + Number(clock.slice(3, 5));

/** Minutes that the fill of item `index` dwells as prescribed. */
export function dwellMinutesOf(items: readonly ScenarioItem[], index: number): number {
  const { dwell } = items[index] as ScenarioItem;
  if (dwell.by !== 'clock') return dwell.dwellMinutes;
  const next = (items[(index + 1) % items.length] as ScenarioItem).dwell;
  if (next.by !== 'clock') throw new Error('A day by the clock has clock times only.');
  const apart = (minutesOfDay(next.at) - minutesOfDay(dwell.at) + DAY_MINUTES) % DAY_MINUTES;
  return apart - AT_THE_BED_MINUTES;
}

const minutes = (n: number) => Math.round(n) * MINUTE_MS;

export type Person = { items: readonly ScenarioItem[]; ufOffsetMl: number };

/**
 * What a drain brings: the ward's own expectation, this person's habit, and the day's noise, to the nearest 10 mL.
 * Solutions or lengths beyond the table bring back what went in, less the noise.
 */
export function drainedMlOf(
  item: ScenarioItem,
  dwellMinutes: number,
  person: Person,
  random: Chance,
  formulary: readonly Solution[],
  settings: WardSettings,
): number {
  const solution = formulary.find((s) => s.id === item.solutionId);
  const expected = solution ? expectedUf(solution, item.fillMl, dwellMinutes, settings) : null;
  const ufMl = random.normal((expected?.ufMl ?? 0) + person.ufOffsetMl, Math.min(110, expected?.sdMl ?? 110));
  return Math.max(0, Math.round((item.fillMl + ufMl) / 10) * 10);
}

/** The visits that lead up to a fill that ended at `lastFillEndedAt`, newest last, back to `from`. */
export function exchangesUpTo(
  lastFillEndedAt: EpochMs,
  lastItem: number,
  from: EpochMs,
  person: Person,
  random: Chance,
  drained: (item: ScenarioItem, dwellMinutes: number) => number,
): PastExchange[] {
  const exchanges: PastExchange[] = [];
  const cycle = person.items[0]?.dwell.by === 'cycle';
  let fillEndedAt = lastFillEndedAt;
  let item = lastItem;
  while (fillEndedAt > from + 2 * HOUR_MS) {
    const fillStartedAt = fillEndedAt - minutes(cycle ? 8 : random.between(7, 12));
    const previous = (item + person.items.length - 1) % person.items.length;
    const before = person.items[previous] as ScenarioItem;
    const drainEndedAt = fillStartedAt - minutes(cycle ? 2 : random.between(3, 6));
    const drainStartedAt = drainEndedAt - minutes(cycle ? 15 : random.between(13, 19));
    const dwellMinutes =
      dwellMinutesOf(person.items, previous) + Math.round(cycle ? random.between(0, 4) : random.between(-6, 14));
    exchanges.push({
      drain: { startedAt: drainStartedAt, endedAt: drainEndedAt, drainedMl: drained(before, dwellMinutes) },
      fill: { startedAt: fillStartedAt, endedAt: fillEndedAt, item },
    });
    fillEndedAt = drainStartedAt - minutes(dwellMinutes);
    item = previous;
  }
  exchanges.push({
    drain: null,
    fill: { startedAt: fillEndedAt - minutes(10), endedAt: fillEndedAt, item },
  });
  return exchanges.reverse();
}
