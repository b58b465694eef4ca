import { infusedMl, measuredMl } from '../cavity/measured.ts';
import type { Infused, Measure } from '../cavity/volume.ts';
import { outOfRange } from '../prescription/ranges.ts';
import type { Problem } from '../record/problem.ts';
import { lotProblem } from '../solution/label/lot.ts';
import type { BagInHand } from '../solution/solution.ts';
import type { WardSettings } from '../ward/settings.ts';

/** Which drain of its visit, from 1. */
export const drainNumber = (drain: number): Problem | null => outOfRange('drain', drain, 1, 50, '');

/** No bag holds less than 100 mL or more than the most that may be filled at once. */
export const labelled = (field: string, ml: number, settings: WardSettings): Problem | null =>
  outOfRange(field, ml, 100, Math.max(6000, settings.filledMostMl), 'mL');

/** What is typed of a bag in hand. */
export const bagRanges = (bag: BagInHand, settings: WardSettings): readonly (Problem | null)[] => [
  labelled('bag.labelledMl', bag.labelledMl, settings),
  bag.lot === null ? null : lotProblem('bag.lot', bag.lot),
];

/** What went in, and each figure that it was reckoned from. @param leastMl 0 where a stopped fill may have put in nothing */
export function infusedProblems(
  infused: Infused,
  leastMl: number,
  settings: WardSettings,
): readonly (Problem | null)[] {
  const volumeMl = infusedMl(infused);
  const parts =
    infused.basis === 'computed'
      ? [
          labelled('infused.labelledMl', infused.labelledMl, settings),
          outOfRange('infused.bagExcessMl', infused.bagExcessMl, 0, 500, 'mL'),
          outOfRange('infused.flushMl', infused.flushMl, 0, settings.flushMostMl, 'mL'),
          outOfRange('infused.leftInBagMl', infused.leftInBagMl, 0, infused.labelledMl + infused.bagExcessMl, 'mL'),
        ]
      : [];
  return [...parts, volumeMl === null ? null : outOfRange('infused', volumeMl, leastMl, settings.filledMostMl, 'mL')];
}

/** What came out, as it was weighed or read, and without tare and flush. */
export function measureProblems(measure: Measure, settings: WardSettings): readonly (Problem | null)[] {
  const weighed =
    measure.method === 'scale'
      ? [
          outOfRange('grossG', measure.grossG, 0, settings.grossMostG, 'g'),
          outOfRange('tareG', measure.tareG, 0, settings.tareMostG, 'g'),
          outOfRange('densityGPerMl', measure.densityGPerMl, 0.95, 1.1, 'g/mL'),
        ]
      : [outOfRange('volumeMl', measure.volumeMl, 0, settings.drainedMostMl + settings.flushMostMl, 'mL')];
  return [
    drainNumber(measure.drain),
    ...weighed,
    outOfRange('flushMl', measure.flushMl, 0, settings.flushMostMl, 'mL'),
    outOfRange('drained volume (without tare and flush)', measuredMl(measure), 0, settings.drainedMostMl, 'mL'),
  ];
}
