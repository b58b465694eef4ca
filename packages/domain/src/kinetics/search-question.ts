import type { DayPatient } from './day.ts';
import type { SearchSpace } from './search-candidates.ts';

/** What the day has to reach; at least one. Estimates are held against them, renal function apart. */
export type SearchTargets = {
  weeklyKtV?: number;
  creatinineClearanceLPerWeekPer173?: number;
  ultrafiltrationMl?: number;
};

/** What the day may not pass. */
export type SearchLimits = {
  /** The most inside at any time, residual included, mL; the upper end of the band is held against it. */
  mostInsideMl: number;
};

export type SearchQuestion = SearchSpace & { patient: DayPatient; targets: SearchTargets; limits: SearchLimits };
