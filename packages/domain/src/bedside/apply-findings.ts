import type { SaidComfort } from '../peritonitis/work-up.ts';
import type { Entry } from '../record/entry.ts';
import type { Apply } from './apply.ts';
import type { BedsideState } from './state.ts';

/** Enough for the dwell under way and the exchanges before it. */
const KEPT = 12;

/** Newest first by their own time, so that the order of arrival does not matter. */
const newestFirst = <T extends { entryId: string }>(items: readonly T[], at: (item: T) => number): readonly T[] =>
  [...items].sort((a, b) => at(b) - at(a) || (a.entryId < b.entryId ? 1 : -1)).slice(0, KEPT);

/** Keeps what was said of comfort beside what was said before. */
export function withComfort(
  state: BedsideState,
  { id, happenedAt, visitId }: Entry<'comfort' | 'symptoms'>,
  { comfort, when }: Pick<SaidComfort, 'comfort' | 'when'>,
): BedsideState {
  const said: SaidComfort = { entryId: id, at: happenedAt, visitId, when, comfort };
  return { ...state, comforts: newestFirst([...state.comforts, said], ({ at }) => at) };
}

export const applySymptoms: Apply<'symptoms'> = (state, entry) =>
  withComfort(state, entry, { comfort: entry.payload.comfort, when: 'between' });

/** Only what is about a finding is kept in sight. */
export const applyTold: Apply<'told'> = (state, entry) =>
  entry.payload.finding === undefined
    ? state
    : { ...state, told: newestFirst([...state.told, { ...entry.payload, entryId: entry.id }], ({ toldAt }) => toldAt) };

/** The newest by its own time, whenever it is recorded. */
export const applyExitSite: Apply<'exitSite'> = (state, entry) =>
  state.exitSite !== null && state.exitSite.at > entry.happenedAt
    ? state
    : { ...state, exitSite: { ...entry.payload, entryId: entry.id, at: entry.happenedAt } };
