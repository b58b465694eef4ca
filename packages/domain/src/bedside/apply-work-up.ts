import type { WorkUp } from '../peritonitis/work-up.ts';
import type { Apply } from './apply.ts';
import type { BedsideState } from './state.ts';

/** So many work-ups stay in sight. */
const KEPT = 5;

/** Stands before all others, so that none of them pushes it out before it is opened. */
const NOT_OPENED = {
  openedAt: Number.MAX_SAFE_INTEGER,
  drainId: '',
  drainStartedAt: 0,
  appearance: [],
  dwellMinutes: null,
} as const;

/**
 * Changes one work-up. A sample may have been taken minutes before the tool opened the work-up for it: whichever is
 * folded first, the same comes of it.
 */
function changeWorkUp(state: BedsideState, id: string, change: (workUp: WorkUp) => WorkUp): BedsideState {
  const known = state.workUps.find((one) => one.id === id);
  const changed = change(known ?? { ...NOT_OPENED, id, samples: [], results: [], antibiotics: [], closed: null });
  const others = state.workUps.filter((one) => one.id !== id);
  const workUps = [...others, changed].sort((a, b) => b.openedAt - a.openedAt || (a.id < b.id ? 1 : -1)).slice(0, KEPT);
  return { ...state, workUps };
}

const oldestFirst = <T extends { id: string; at: number }>(items: readonly T[]): readonly T[] =>
  [...items].sort((a, b) => a.at - b.at || (a.id < b.id ? -1 : 1));

export const applyWorkUpOpened: Apply<'workUpOpened'> = (state, entry) =>
  changeWorkUp(state, entry.id, (workUp) => ({ ...workUp, ...entry.payload, openedAt: entry.happenedAt }));

export const applySampleTaken: Apply<'sampleTaken'> = (state, { id, happenedAt, payload }) =>
  changeWorkUp(state, payload.workUpId, (workUp) => ({
    ...workUp,
    samples: oldestFirst([...workUp.samples, { ...payload, id, at: happenedAt }]),
  }));

export const applyResultReported: Apply<'resultReported'> = (state, { id, happenedAt, payload }) =>
  changeWorkUp(state, payload.workUpId, (workUp) => ({
    ...workUp,
    results: oldestFirst([...workUp.results, { ...payload, id, at: happenedAt }]),
  }));

export const applyAntibioticStarted: Apply<'antibioticStarted'> = (state, { id, happenedAt, payload }) => {
  const { workUpId, ...said } = payload;
  return changeWorkUp(state, workUpId, (workUp) => ({
    ...workUp,
    antibiotics: oldestFirst([...workUp.antibiotics, { ...said, id, at: happenedAt }]),
  }));
};

/** The judge lets only one conclusion stand; of two that met at the door the later one counts. */
export const applyWorkUpClosed: Apply<'workUpClosed'> = (state, { happenedAt, payload }) =>
  changeWorkUp(state, payload.workUpId, (workUp) => {
    if (workUp.closed !== null && workUp.closed.at > happenedAt) return workUp;
    const { conclusion, reason } = payload;
    return { ...workUp, closed: { at: happenedAt, conclusion, reason } };
  });
