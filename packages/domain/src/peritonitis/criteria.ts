import { type Computed, computed, unlessRefused } from '../units/computed.ts';
import { checkNumbers } from '../units/ranges.ts';
import type { Culture } from './episode.ts';

/** A count of the effluent, taken from a dwell of known or unknown length. */
export type CellCount = {
  whiteCellsPerUl: number;
  polymorphPercent: number;
  /** Dwell before the sample; null = not known. */
  dwellMinutes: number | null;
};

/** What entries and results say so far; null = not known (yet), never "no". */
export type Findings = {
  pain: boolean | null;
  cloudy: boolean | null;
  count: CellCount | null;
  culture: Culture;
};

export type Criterion = 'met' | 'notMet' | 'notKnown';

export type Criteria = {
  clinical: Criterion;
  cells: Criterion;
  culture: Criterion;
  /** Two of three met · can no longer reach two · still open. */
  diagnosis: 'peritonitis' | 'notByTheseCriteria' | 'open';
};

/** Limits of the cell criterion (ISPD 2022; settings). */
export const CELL_LIMITS = { whiteCellsAbovePerUl: 100, polymorphsAbovePercent: 50, leastDwellMinutes: 120 } as const;

/**
 * The three criteria, filling up as results come: two of clinical features, cells and culture make the diagnosis.
 * Source: ISPD 2022 (Li et al., Perit Dial Int 2022;42:110); under a dwell of 2 h more than 50 % polymorphs count even
 * at 100/µL or less (ISPD, quoting the 2016 text). Cloudy effluent is treated as peritonitis until excluded, whatever
 * stands here.
 * @returns each criterion and the diagnosis; or the problem: a count out of range
 */
export const peritonitisCriteria = (findings: Findings): Computed<Criteria> =>
  unlessRefused(findings.count ? checkCount(findings.count) : [], () => {
    const clinical = clinicalCriterion(findings);
    const cells = findings.count ? cellCriterion(findings.count) : 'notKnown';
    const culture = cultureCriterion(findings.culture);
    return computed({ clinical, cells, culture, diagnosis: diagnosisOf([clinical, cells, culture]) });
  });

const checkCount = (count: CellCount) => [
  ...checkNumbers(count, {
    whiteCellsPerUl: { least: 0, most: 1_000_000, unit: '/µL' },
    polymorphPercent: { least: 0, most: 100, unit: '%' },
  }),
  ...(count.dwellMinutes === null
    ? []
    : checkNumbers(count, { dwellMinutes: { least: 0, most: 24 * 60, unit: 'min' } })),
];

const clinicalCriterion = ({ pain, cloudy }: Findings): Criterion => {
  if (pain === true || cloudy === true) return 'met';
  return pain === false && cloudy === false ? 'notMet' : 'notKnown';
};

const cellCriterion = ({ whiteCellsPerUl, polymorphPercent, dwellMinutes }: CellCount): Criterion => {
  const { whiteCellsAbovePerUl, polymorphsAbovePercent, leastDwellMinutes } = CELL_LIMITS;
  if (polymorphPercent <= polymorphsAbovePercent) return 'notMet';
  if (whiteCellsPerUl > whiteCellsAbovePerUl) return 'met';
  if (dwellMinutes === null) return 'notKnown';
  return dwellMinutes < leastDwellMinutes ? 'met' : 'notMet';
};

const cultureCriterion = (culture: Culture): Criterion => {
  if (culture.state === 'grown') return 'met';
  return culture.state === 'sterile' ? 'notMet' : 'notKnown';
};

const diagnosisOf = (criteria: readonly Criterion[]): Criteria['diagnosis'] => {
  const met = criteria.filter((criterion) => criterion === 'met').length;
  const open = criteria.filter((criterion) => criterion === 'notKnown').length;
  if (met >= 2) return 'peritonitis';
  return met + open >= 2 ? 'open' : 'notByTheseCriteria';
};
