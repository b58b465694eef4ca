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

export const applyOtherFluid: Apply<'otherFluid'> = (state, entry, policy) => {
  const { direction, volumeMl } = entry.payload;
  const fluid = { at: entry.happenedAt, direction, volumeMl };
  return inTime(state, fluid.at, (balance) => plusFluid(balance, fluid), policy);
};

/** A person's word, after the drains of the newest dwell or before any: empty, and the figures start anew. */
export const applyConfirmedEmpty: Apply<'cavityConfirmedEmpty'> = (state, entry, policy) => {
  const emptyConfirmedAt = entry.happenedAt;
  const newest = newestDwell(state);
  if (newest !== null && !holdsUndrained(state)) {
    return changeDwell(state, newest.id, (facts) => ({ ...facts, emptyConfirmedAt }), policy) ?? state;
  }
  return {
    ...state,
    cavity: { state: 'empty', since: emptyConfirmedAt },
    inside: confirmEmpty(state.inside, policy.settings),
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
