import { type IsoDate, plusDays } from '../time/zone.ts';
import { type Computed, computed, unlessRefused } from '../units/computed.ts';
import { checkDate } from '../units/dates.ts';
import { AFTER_PERITONITIS_DAYS } from './standing.ts';

/** Months between tests; settings. Sources: KDOQI 2006 (month 1, every 4); urine every 2 months from memory. */
const ADEQUACY_SCHEDULE = { firstWithinMonths: 1, everyMonths: 4, urineEveryMonths: 2 } as const;

export type AdequacyHistory = {
  /** Start of chronic dialysis. */
  startedOn: IsoDate;
  lastTotalOn: IsoDate | null;
  lastUrineOn: IsoDate | null;
  /** Residual function is counted in the total. */
  urineCounted: boolean;
  /** End of treatment of the last peritonitis; `'ongoing'` while it is treated. */
  peritonitisTreatedUntil: IsoDate | 'ongoing' | null;
};

export type NextAdequacy = {
  /** Last day by which the total test should be done. */
  totalBy: IsoDate;
  /** Last day by which urine should be collected; null when it is not counted. */
  urineBy: IsoDate | null;
  /** First day on which a test says something, after peritonitis; null = any day; `'unknown'` while it is treated. */
  notBefore: IsoDate | 'unknown' | null;
};

/**
 * When the next adequacy test is due: within a month of the start, then every 4 months, urine every 2 months where it
 * is counted, and not within a month of peritonitis.
 * Months are calendar months: a month after 31 January is the last day of February.
 * @returns the dates, or the problem: a date that does not exist, or a test before the start of dialysis
 */
export const nextAdequacyDue = (history: AdequacyHistory): Computed<NextAdequacy> => {
  const { startedOn, lastTotalOn, lastUrineOn, urineCounted, peritonitisTreatedUntil } = history;
  const problems = [
    ...checkDate('startedOn', startedOn),
    ...(lastTotalOn === null ? [] : checkDate('lastTotalOn', lastTotalOn, { from: startedOn })),
    ...(lastUrineOn === null ? [] : checkDate('lastUrineOn', lastUrineOn, { from: startedOn })),
    ...(peritonitisTreatedUntil === null || peritonitisTreatedUntil === 'ongoing'
      ? []
      : checkDate('peritonitisTreatedUntil', peritonitisTreatedUntil)),
  ];
  return unlessRefused(problems, () => {
    const { firstWithinMonths, everyMonths, urineEveryMonths } = ADEQUACY_SCHEDULE;
    const first = monthsAfter(startedOn, firstWithinMonths);
    return computed<NextAdequacy>({
      totalBy: lastTotalOn === null ? first : monthsAfter(lastTotalOn, everyMonths),
      urineBy: !urineCounted ? null : lastUrineOn === null ? first : monthsAfter(lastUrineOn, urineEveryMonths),
      notBefore:
        peritonitisTreatedUntil === null
          ? null
          : peritonitisTreatedUntil === 'ongoing'
            ? 'unknown'
            : plusDays(peritonitisTreatedUntil, AFTER_PERITONITIS_DAYS),
    });
  });
};

const monthsAfter = (date: IsoDate, months: number): IsoDate =>
  Temporal.PlainDate.from(date).add({ months }).toString();
