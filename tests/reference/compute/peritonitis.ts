import { catheterRelation } from '../../../packages/domain/src/peritonitis/catheter.ts';
import { cellsPerUl } from '../../../packages/domain/src/peritonitis/cell-count-units.ts';
import { clearing, dayFiveFailurePercent, dayThreeSays } from '../../../packages/domain/src/peritonitis/course.ts';
import { peritonitisCriteria } from '../../../packages/domain/src/peritonitis/criteria.ts';
import { exitSiteFinding } from '../../../packages/domain/src/peritonitis/exit-site.ts';
import { onsetOf } from '../../../packages/domain/src/peritonitis/onset.ts';
import { patientDays, spansByPatient } from '../../../packages/domain/src/peritonitis/patient-days.ts';
import { infectionRate, perYearFromMonthsPerEpisode } from '../../../packages/domain/src/peritonitis/rates.ts';
import { relationTo } from '../../../packages/domain/src/peritonitis/relation.ts';
import { limitsAgainst, rateAgainstTarget, SHARE_TARGETS } from '../../../packages/domain/src/peritonitis/targets.ts';
import { exactShare } from '../../../packages/domain/src/statistics/binomial-limits.ts';
import { exactRate } from '../../../packages/domain/src/statistics/poisson-limits.ts';
import type { Computations } from '../rows.ts';

const MONTHS_PER_YEAR = 12;

export const PERITONITIS: Computations = {
  criteria: peritonitisCriteria,
  cellsPerUl: ({ value, unit }) => cellsPerUl(value, unit),
  dayThree: ({ count }) => dayThreeSays(count),
  dayFive: ({ count }) => dayFiveFailurePercent(count),
  relation: ({ before, episode }) => relationTo(before, episode),
  clearing: ({ since, today, counts, cloudy }) => clearing(since, today, counts, cloudy),
  catheter: ({ episode, story }) => catheterRelation(episode, story),
  onset: ({ firstSignOn, admittedOn }) => onsetOf(firstSignOn, admittedOn),
  rate: ({ episodes, patientDays: days }) => infectionRate(episodes, days),
  rateFromMonths: ({ episodes, months }) => exactRate(episodes, months / MONTHS_PER_YEAR).value!.estimate,
  perYearFromMonths: ({ months }) => perYearFromMonthsPerEpisode(months),
  patientDays: ({ periods, window }) => patientDays(spansByPatient(periods, false), window),
  target: ({ episodes, patientDays: days, denominator }) =>
    rateAgainstTarget(infectionRate(episodes, days).value!, denominator),
  shareTarget: ({ part, whole, target }: { part: number; whole: number; target: keyof typeof SHARE_TARGETS }) =>
    limitsAgainst(exactShare(part, whole).value!, SHARE_TARGETS[target]),
  exitSite: exitSiteFinding,
};
