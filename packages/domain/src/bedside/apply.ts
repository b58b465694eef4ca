import type { Entry, EntryKind } from '../record/entry.ts';
import type { WardPolicy } from '../ward/policy.ts';
import type { BedsideState } from './state.ts';

/** What one entry of a kind makes of the state. Pure; `due` is reckoned afterwards from the whole. */
export type Apply<K extends EntryKind> = (state: BedsideState, entry: Entry<K>, policy: WardPolicy) => BedsideState;

/** Kinds that change nothing of what a bedside shows: they stand in the record alone. */
export const unchanged = (state: BedsideState): BedsideState => state;
