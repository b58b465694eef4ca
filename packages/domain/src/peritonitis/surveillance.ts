import type { Problem } from '../record/problem.ts';
import { exactShare } from '../statistics/binomial-limits.ts';
import type { Limits } from '../statistics/limits.ts';
import type { IsoDate } from '../time/zone.ts';
import { type Computed, computed, unlessRefused } from '../units/computed.ts';
import { checkDate, type Month, monthsOf } from '../units/dates.ts';
import { type CountedEpisode, countEpisodes } from './counting.ts';
import type { Episode } from './episode.ts';
import {
  checkPeriods,
  type DialysisPeriod,
  daysWithin,
  patientDays,
  spanOf,
  spansByPatient,
  type Window,
} from './patient-days.ts';
import { infectionRate, type Rate } from './rates.ts';

export type SurveillanceInput = {
  episodes: readonly Episode[];
  periods: readonly DialysisPeriod[];
  /** Whole months are reported; the window may begin and end within one. */
  window: Window;
  includeAcute: boolean;
};

export type MonthOfSurveillance = {
  /** `YYYY-MM` */
  month: Month['month'];
  patientDays: number;
  /** Counted episodes, relapses left out. */
  episodes: number;
  /** The twelve months that end with this one; null while there are fewer than twelve, or no days at risk. */
  rollingYear: Rate | null;
};

export type Surveillance = {
  months: readonly MonthOfSurveillance[];
  /** Over the whole window; null = no days at risk. */
  whole: Rate | null;
  /** Patients at risk in the window who had no episode. */
  peritonitisFree: Limits | null;
  /** Counted episodes with a finished culture that stayed sterile. */
  cultureNegative: Limits | null;
};

const MONTHS_OF_A_YEAR = 12;

/**
 * Peritonitis of a programme: by month, by rolling year, with exact limits; shares with exact limits.
 * Episodes outside anyone's days at risk are left out and named in the issues.
 * @returns the figures; or the problems: days that do not exist, periods or window out of order
 */
export const surveillance = (input: SurveillanceInput): Computed<Surveillance> => {
  const { window } = input;
  const problems = [
    ...checkDate('window.from', window.from),
    ...checkDate('window.to', window.to, { from: window.from }),
    ...checkPeriods(input.periods),
    ...input.episodes.flatMap((episode, i) => checkDate(`episodes[${i}].diagnosedOn`, episode.diagnosedOn)),
  ];
  return unlessRefused(problems, () => {
    const spans = spansByPatient(input.periods, input.includeAcute);
    const atRisk = (patientId: string, on: IsoDate): boolean =>
      daysWithin(spans.get(patientId) ?? [], spanOf({ from: on, to: on })) > 0;
    const all = countEpisodes(input.episodes).filter((episode) => isWithin(episode.diagnosedOn, window));
    const counted = all.filter((episode) => episode.counts && atRisk(episode.patientId, episode.diagnosedOn));
    const outside = all.filter((episode) => !atRisk(episode.patientId, episode.diagnosedOn));
    const months = monthsOf(window.from, window.to).map((month) => ({
      month: month.month,
      patientDays: patientDays(spans, month),
      episodes: counted.filter((episode) => isWithin(episode.diagnosedOn, month)).length,
    }));
    return computed<Surveillance>(
      {
        months: months.map((month, i) => ({ ...month, rollingYear: rollingYear(months, i) })),
        whole: rateOf(months),
        peritonitisFree: freeShare(spans, counted, window),
        cultureNegative: sterileShare(counted),
      },
      outside.map(outsideDaysAtRisk),
    );
  });
};

type Tally = { patientDays: number; episodes: number };

const isWithin = (on: IsoDate, { from, to }: Window): boolean => on >= from && on <= to;

const rateOf = (months: readonly Tally[]): Rate | null => {
  const days = months.reduce((sum, month) => sum + month.patientDays, 0);
  const episodes = months.reduce((sum, month) => sum + month.episodes, 0);
  return days === 0 ? null : infectionRate(episodes, days).value;
};

const rollingYear = (months: readonly Tally[], last: number): Rate | null => {
  const first = last - MONTHS_OF_A_YEAR + 1;
  return first < 0 ? null : rateOf(months.slice(first, last + 1));
};

const freeShare = (
  spans: ReturnType<typeof spansByPatient>,
  counted: readonly CountedEpisode[],
  window: Window,
): Limits | null => {
  const within = spanOf(window);
  const patients = [...spans].filter(([, own]) => daysWithin(own, within) > 0).map(([patientId]) => patientId);
  const struck = new Set(counted.map((episode) => episode.patientId));
  return exactShare(patients.filter((patientId) => !struck.has(patientId)).length, patients.length).value;
};

const sterileShare = (counted: readonly CountedEpisode[]): Limits | null => {
  const finished = counted.filter(({ culture }) => culture.state === 'sterile' || culture.state === 'grown');
  return exactShare(finished.filter(({ culture }) => culture.state === 'sterile').length, finished.length).value;
};

const outsideDaysAtRisk = (episode: CountedEpisode): Problem => ({
  code: 'outside-days-at-risk',
  field: 'episodes',
  value: { id: episode.id, diagnosedOn: episode.diagnosedOn },
  allowed: 'a day within a dialysis period of that patient',
  message: `An episode of ${episode.diagnosedOn} lies outside the patient's days at risk and is left out`,
});
