import { type EpochMs, MINUTE_MS } from '@slackwater/domain/time/instant';
import type { Lane } from '@slackwater/domain/ward/workload';

export const HALF_HOUR_MS = 30 * MINUTE_MS;

/** A half hour of one lane: drains whose dwell runs, and drains that are only planned. */
export type Slot = { from: EpochMs; running: number; planned: number };

/** What a lane has to come, by half hours of the clock; empty half hours are left out. */
export const slotsOf = (toCome: Lane['toCome']): readonly Slot[] => {
  const slots = new Map<EpochMs, Slot>();
  for (const { at, planned } of toCome) {
    const from = Math.floor(at / HALF_HOUR_MS) * HALF_HOUR_MS;
    const slot = slots.get(from) ?? { from, running: 0, planned: 0 };
    slots.set(from, planned ? { ...slot, planned: slot.planned + 1 } : { ...slot, running: slot.running + 1 });
  }
  return [...slots.values()].sort((a, b) => a.from - b.from);
};

export type NamedLane = { name: string; slots: readonly Slot[] };

/** The strip holds so many lines; who comes after them shares the last. */
const MOST_LANES = 6;

/** A line for each nurse in the order of their names, then what nobody is assigned to. */
export const lanesOf = (lanes: readonly Lane[], names: ReadonlyMap<string, string>): readonly NamedLane[] => {
  const assigned = lanes
    .filter((lane) => lane.nurse !== null)
    .map((lane) => ({
      name: (lane.nurse && names.get(lane.nurse.accountId)) ?? lane.nurse?.name ?? '',
      toCome: lane.toCome,
    }))
    .sort((a, b) => a.name.localeCompare(b.name, 'en'));
  const nobodys = lanes.filter((lane) => lane.nurse === null && lane.toCome.length > 0);
  const all = [...assigned, ...nobodys.map((lane) => ({ name: 'nobody', toCome: lane.toCome }))];
  const alone = all.length > MOST_LANES ? all.slice(0, MOST_LANES - 1) : all;
  const others = all.slice(alone.length);
  return [
    ...alone,
    ...(others.length > 0 ? [{ name: `${others.length} others`, toCome: others.flatMap(({ toCome }) => toCome) }] : []),
  ].map(({ name, toCome }) => ({ name, slots: slotsOf(toCome) }));
};
