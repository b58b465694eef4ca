import type { BedsideState } from '../bedside/state.ts';
import type { Draft, Entry } from '../record/entry.ts';
import type { Problem } from '../record/problem.ts';
import { undrainedProblems } from './judge-fill.ts';
import { stepRule } from './judge-step.ts';
import { refusal } from './judge-types.ts';
import { isStep, type Step } from './steps.ts';

/**
 * Whether a recorded entry may stand where it stands: what its place decides (the table, the visit, fluid that nobody
 * drained), and not what its author decided then (guard, bag, ranges).
 */
export function placeProblems(before: BedsideState, entry: Entry): readonly Problem[] {
  if (!isStep(entry.kind)) return [];
  const problems = stepRule(before, entry as Draft<Step>);
  if (problems.length > 0) return problems;
  if (entry.kind === 'startFill') return undrainedProblems(before);
  if (entry.kind !== 'resume' || before.lastVisit?.stopped != null) return [];
  return [refusal('not-stopped', 'The last visit was closed, not stopped: prepare a new one.')];
}
