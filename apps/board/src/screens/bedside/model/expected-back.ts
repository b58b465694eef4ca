import type { BedsideState, DrainEstimator, EpochMs, WardPolicy } from '@slackwater/domain';
import { expectedUf } from '@slackwater/domain/cavity/expected';
import { solutionOf } from '@slackwater/domain/solution/formulary';
import { minutesBetween } from '@slackwater/domain/time/instant';
import { type ExpectedOut, expectedOut } from './expected-out.ts';

/** What a drain at some instant is expected to bring, from what is inside. */
export type ExpectedBack = {
  inMl: number;
  /** Strength as text; null where it was handed over without. */
  strength: string | null;
  filledAt: EpochMs;
  dwellMinutes: number;
  /** What should come out; null where neither the model nor the table reaches. */
  out: ExpectedOut | null;
};

/**
 * What went in and what is expected to come out if it is drained at `at`.
 * @param learned what the patient's earlier dwells taught; null while it could not be read
 * @returns null while nothing is inside or its volume or time is not known: then nothing is compared, never with zero
 */
export const expectedBack = (
  state: BedsideState,
  policy: WardPolicy,
  at: EpochMs,
  learned: DrainEstimator | null,
): ExpectedBack | null => {
  const fills = state.openDwell?.fills ?? (state.cavity.state === 'holding' ? state.cavity.fills : []);
  const last = fills.at(-1);
  if (!last || last.endedAt === null) return null;
  let inMl = 0;
  for (const fill of fills) {
    if (fill.filledMl === null) return null;
    inMl += fill.filledMl;
  }
  const solution = solutionOf(policy.formulary, last.solutionId);
  const dwellMinutes = Math.max(0, minutesBetween(last.endedAt, at));
  const table = solution && expectedUf(solution, inMl, dwellMinutes, policy.settings);
  const out = expectedOut(fills, at, policy, learned, table);
  return { inMl, strength: solution?.strength ?? null, filledAt: last.endedAt, dwellMinutes, out };
};
