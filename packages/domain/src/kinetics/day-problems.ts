import type { Problem } from '../record/problem.ts';
import { checkNumber, checkNumbers, ofPart, type Range } from '../units/ranges.ts';
import type { DayInput, DayPatient } from './day.ts';
import { checkDwell, checkPatient, RESIDUAL_RANGE } from './ranges.ts';

const PATIENT_RANGES = {
  residualMl: RESIDUAL_RANGE,
  ureaVolumeMl: { least: 3_000, most: 100_000, unit: 'mL' },
  bodySurfaceM2: { least: 0.35, most: 3, unit: 'm²' },
} as const satisfies Record<string, Range>;

const DWELLS: Range = { least: 1, most: 12, unit: 'dwells', whole: true };
const DAY_MINUTES: Range = { least: 1, most: 1440, unit: 'min' };

/** Whom a day is computed for. */
export const checkDayPatient = (patient: DayPatient): readonly Problem[] => [
  ...checkNumbers(patient, PATIENT_RANGES),
  ...checkPatient(patient),
];

/** The whole day: each dwell, and that they fit into 24 h. */
export const checkDay = (input: DayInput): readonly Problem[] => {
  const minutes = input.dwells.reduce((sum, dwell) => sum + dwell.dwellMinutes, 0);
  return [
    ...checkDayPatient(input),
    ...checkNumber('dwells', input.dwells.length, DWELLS),
    ...input.dwells.flatMap((dwell, index) => ofPart(`dwells.${index}`, checkDwell(dwell))),
    ...(minutes > DAY_MINUTES.most ? checkNumber('dwells.minutesTogether', minutes, DAY_MINUTES) : []),
  ];
};
