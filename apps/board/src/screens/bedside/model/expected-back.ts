import type { BedsideState, EpochMs, WardPolicy } from '@slackwater/domain';
import { expectedUf } from '@slackwater/domain/cavity/expected';
import { solutionOf } from '@slackwater/domain/solution/formulary';
import { minutesBetween } from '@slackwater/domain/time/instant';

/** What a drain at some instant is expected to bring, from what is inside. */
export type ExpectedBack = {
  inMl: number;
  /** Strength as text; null where it was handed over without. */
  strength: string | null;
  filledAt: EpochMs;
  dwellMinutes: number;
  /** Expected ultrafiltration and its spread; null where the table does not reach. */
  uf: { ufMl: number; sdMl: number } | null;
};

/**
 * What went in and what is expected to come out if it is drained at `at`, by the ward's table for adults.
 * @returns null while nothing is inside or its volume or time is not known: then nothing is compared, never with zero
 */
export const expectedBack = (state: BedsideState, policy: WardPolicy, at: EpochMs): ExpectedBack | null => {
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
  const uf = solution && expectedUf(solution, inMl, dwellMinutes, policy.settings);
  return { inMl, strength: solution?.strength ?? null, filledAt: last.endedAt, dwellMinutes, uf };
};
