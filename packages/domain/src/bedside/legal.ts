import { placeProblems } from '../exchange/judge-place.ts';
import { canonical } from '../record/canonical.ts';
import type { Entry } from '../record/entry.ts';
import type { Problem } from '../record/problem.ts';
import type { EpochMs } from '../time/instant.ts';
import type { WardPolicy } from '../ward/policy.ts';
import { fold, replay } from './fold.ts';
import type { BedsideState } from './state.ts';

export type IllegalEntry = { entryId: string; problems: readonly Problem[] };

/**
 * Entries that could not stand where they stand, once a late visit, a correction or a retraction is among them: steps
 * that the table does not allow, or that lie before the step they name. [] = the whole stays legal.
 */
export function illegalEntries(
  patientId: string,
  entries: readonly Entry[],
  policy: WardPolicy,
): readonly IllegalEntry[] {
  const found: IllegalEntry[] = [];
  replay(patientId, entries, policy, (before, entry) => {
    const problems = placeProblems(before, entry);
    if (problems.length > 0) found.push({ entryId: entry.id, problems });
  });
  return found;
}

/** The state as it was just before an instant: what a late entry is judged against. */
export function stateBefore(
  patientId: string,
  entries: readonly Entry[],
  at: EpochMs,
  policy: WardPolicy,
): BedsideState {
  return fold(
    patientId,
    canonical(entries).filter((entry) => entry.happenedAt < at),
    policy,
  ).state;
}
