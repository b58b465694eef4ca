import { plusFluid } from '../balance/balance.ts';
import { confirmEmpty } from '../cavity/inside.ts';
import type { Entry } from '../record/entry.ts';
import type { Apply } from './apply.ts';
import { inTime } from './buckets.ts';
import { changeDwell, holdsUndrained, newestDwell } from './fluid.ts';

/** The newest by its own time, whenever it is recorded. */
export const applyWeight: Apply<'weight'> = (state, entry) =>
  state.weight !== null && state.weight.at > entry.happenedAt
    ? state
    : { ...state, weight: { ...entry.payload, at: entry.happenedAt } };

export const applyBloodPressure: Apply<'bloodPressure'> = (state, entry) =>
  state.bloodPressure !== null && state.bloodPressure.at > entry.happenedAt
    ? state
    : { ...state, bloodPressure: { ...entry.payload, at: entry.happenedAt } };

export const applyTemperature: Apply<'temperature'> = (state, entry) =>
  state.temperature !== null && state.temperature.at > entry.happenedAt
    ? state
    : { ...state, temperature: { ...entry.payload, at: entry.happenedAt } };

export const applyGlucose: Apply<'glucose'> = (state, entry) =>
  state.glucose !== null && state.glucose.at > entry.happenedAt
    ? state
    : { ...state, glucose: { ...entry.payload, at: entry.happenedAt } };

export const applyCalledFirst: Apply<'calledFirst'> = (state, entry) =>
  state.calledFirst !== null && state.calledFirst.at > entry.happenedAt
    ? state
    : { ...state, calledFirst: { ...entry.payload, at: entry.happenedAt, visitId: entry.visitId } };

/** The newest word on each caution counts, by its own time. */
export const applyCaution: Apply<'caution'> = (state, entry) => {
  const { about, present } = entry.payload;
  const said = state.cautions[about];
  if (said !== null && said.at > entry.happenedAt) return state;
  return { ...state, cautions: { ...state.cautions, [about]: { present, at: entry.happenedAt } } };
};

export const applyOtherFluid: Apply<'otherFluid'> = (state, entry, policy) => {
  const { direction, volumeMl } = entry.payload;
  const fluid = { at: entry.happenedAt, direction, volumeMl };
  return inTime(state, fluid.at, (balance) => plusFluid(balance, fluid), policy);
};

/** A person's word, after the drains of the newest dwell or before any: empty, and the figures start anew. */
export const applyConfirmedEmpty: Apply<'cavityConfirmedEmpty'> = (state, entry, policy) => {
  const emptyConfirmed = { at: entry.happenedAt, by: entry.payload.reason };
  const newest = newestDwell(state);
  if (newest !== null && !holdsUndrained(state)) {
    return changeDwell(state, newest.id, (facts) => ({ ...facts, emptyConfirmed }), policy) ?? state;
  }
  return {
    ...state,
    cavity: { state: 'empty', since: emptyConfirmed.at },
    inside: confirmEmpty(state.inside, policy.settings, emptyConfirmed),
  };
};

export const applyCatheter: Apply<'catheter'> = (state, entry) => ({
  ...state,
  catheter: entry.payload,
  catheterInsertedAt: insertedAfter(state.catheterInsertedAt, entry),
});

function insertedAfter(before: number | null, { payload, happenedAt }: Entry<'catheter'>): number | null {
  if (payload.event === 'inserted') return happenedAt;
  return payload.event === 'removed' ? null : before;
}
