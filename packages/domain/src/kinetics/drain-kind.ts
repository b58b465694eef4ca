import type { FillInside } from '../cavity/cavity.ts';
import { solutionOf } from '../solution/formulary.ts';
import type { Solution } from '../solution/solution.ts';
import { type EpochMs, minutesBetween } from '../time/instant.ts';
import type { DrainKind } from './drain-model.ts';
import { bagOf } from './fluid.ts';

/** Why fills are no one dwell that the model knows. */
export type NoKind = 'volumeNotKnown' | 'timeNotKnown' | 'solutionNotKnown' | 'severalStrengths';

/**
 * The dwell that recorded fills made, for the model: their volume together and the mean of their lengths by volume, each
 * from its own end to the start of the first drain.
 * @returns in words why there is none: a missing volume, time or fluid is never guessed, two strengths are not one
 */
export function drainKindOf(
  fills: readonly FillInside[],
  drainStartedAt: EpochMs,
  formulary: readonly Solution[],
): DrainKind | NoKind {
  let bag: DrainKind['bag'] | null = null;
  let fillMl = 0;
  let mlMinutes = 0;
  for (const fill of fills) {
    if (fill.filledMl === null) return 'volumeNotKnown';
    if (fill.endedAt === null) return 'timeNotKnown';
    const solution = solutionOf(formulary, fill.solutionId);
    if (solution === null) return 'solutionNotKnown';
    const own = bagOf(solution);
    if (bag !== null && !isSameFluid(bag, own)) return 'severalStrengths';
    bag = own;
    fillMl += fill.filledMl;
    mlMinutes += fill.filledMl * minutesBetween(fill.endedAt, drainStartedAt);
  }
  if (bag === null || fillMl === 0) return 'volumeNotKnown';
  return { bag, fillMl, dwellMinutes: mlMinutes / fillMl };
}

const isSameFluid = (a: DrainKind['bag'], b: DrainKind['bag']): boolean =>
  a.glucoseMmolPerL === b.glucoseMmolPerL && a.icodextrinGPerL === b.icodextrinGPerL;
