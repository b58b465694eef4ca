import type { Problem } from '../record/problem.ts';
import { checkNumbers, type Range } from '../units/ranges.ts';
import type { MembraneTest } from './done-test.ts';

const MINUTE_MS = 60_000;

/**
 * The procedure that the reference values were measured by (Atlas of Diseases of the Kidney, figs. 4-8 and 4-12).
 * A departure is said beside the result and does not stop it.
 */
const PROCEDURE: Record<
  'dwellBeforeHours' | 'fillMinutes' | 'finalSampleMinutes' | 'bloodMinutes' | 'drainMinutes',
  Range
> = {
  dwellBeforeHours: { least: 8, most: 12, unit: 'h' },
  fillMinutes: { least: 0, most: 15, unit: 'min' },
  finalSampleMinutes: { least: 230, most: 250, unit: 'min after the end of the fill' },
  bloodMinutes: { least: 90, most: 150, unit: 'min after the end of the fill' },
  drainMinutes: { least: 0, most: 20, unit: 'min' },
};

/** Departures from the procedure, as issues beside the result. */
export const timingIssues = (test: MembraneTest): readonly Problem[] => {
  const minutes = (from: number, to: number): number => (to - from) / MINUTE_MS;
  return checkNumbers(
    {
      dwellBeforeHours: test.dwellBeforeHours,
      fillMinutes: minutes(test.fillStartedAt, test.fillEndedAt),
      finalSampleMinutes: minutes(test.fillEndedAt, test.samples.at(-1)!.takenAt),
      bloodMinutes: minutes(test.fillEndedAt, test.blood.takenAt),
      drainMinutes: minutes(test.drainStartedAt, test.drainEndedAt),
    },
    PROCEDURE,
  ).map((problem) => ({
    ...problem,
    code: 'off-procedure',
    message: `Not by the procedure: ${problem.message}`,
  }));
};
