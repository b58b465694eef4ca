import type { Problem } from '../record/problem.ts';
import { checkNumber, checkNumbers, ofPart, type Range } from '../units/ranges.ts';
import { checkDayPatient } from './day-problems.ts';
import { FILL_RANGE } from './ranges.ts';
import type { SearchQuestion, SearchTargets } from './search-question.ts';

const TARGET_RANGES = {
  weeklyKtV: { least: 0, moreThanLeast: true, most: 5, unit: '' },
  creatinineClearanceLPerWeekPer173: { least: 0, moreThanLeast: true, most: 200, unit: 'L a week per 1.73 m²' },
  ultrafiltrationMl: { least: 0, moreThanLeast: true, most: 5_000, unit: 'mL a day' },
} as const satisfies Record<keyof SearchTargets, Range>;

const NIGHT_RANGE: Range = { least: 60, most: 960, unit: 'min' };
const SPACE_RANGES = {
  mostExchanges: { least: 1, most: 6, unit: 'exchanges', whole: true },
  exchangeMinutes: { least: 0, most: 120, unit: 'min' },
} as const satisfies Record<string, Range>;
const LIMIT_RANGES = { mostInsideMl: { least: 500, most: 6_000, unit: 'mL' } } as const satisfies Record<string, Range>;

/** Everything a search needs to make sense. */
export const checkSearch = (question: SearchQuestion): readonly Problem[] => [
  ...ofPart('patient', checkDayPatient(question.patient)),
  ...checkNumbers(question, SPACE_RANGES),
  ...listOf('fillsMl', question.fillsMl, FILL_RANGE),
  ...listOf('nightMinutes', question.nightMinutes, NIGHT_RANGE),
  ...(question.formulary.length === 0 ? [noneOf('formulary')] : []),
  ...ofPart('limits', checkNumbers(question.limits, LIMIT_RANGES)),
  ...checkTargets(question.targets),
];

const checkTargets = (targets: SearchTargets): readonly Problem[] => {
  const given = (Object.keys(TARGET_RANGES) as (keyof SearchTargets)[]).filter((name) => targets[name] !== undefined);
  if (given.length === 0) return [noneOf('targets')];
  return given.flatMap((name) => checkNumber(`targets.${name}`, targets[name], TARGET_RANGES[name]));
};

const listOf = (field: string, values: readonly number[], range: Range): readonly Problem[] =>
  values.length === 0
    ? [noneOf(field)]
    : values.flatMap((value, index) => checkNumber(`${field}.${index}`, value, range));

const noneOf = (field: string): Problem => ({
  code: 'missing',
  field,
  value: null,
  allowed: 'at least one',
  message: `${field} is empty; allowed: at least one`,
});
