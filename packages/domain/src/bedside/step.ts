import type { Entry } from '../record/entry.ts';
import type { BedsideState, Visit } from './state.ts';

/** A step of the visit under way: it becomes the head, and the visit comes into its new state. */
export function stepOfVisit(
  state: BedsideState,
  entry: Entry,
  change: Partial<Visit> & Pick<Visit, 'state'>,
): BedsideState {
  if (state.visit === null) return state;
  return headedBy({ ...state, visit: { ...state.visit, ...change, since: entry.happenedAt } }, entry);
}

/** The newest step of all: what the next one names as its `after`. */
export const headedBy = (state: BedsideState, entry: Entry): BedsideState => ({
  ...state,
  head: entry.id,
  headAt: entry.happenedAt,
});
