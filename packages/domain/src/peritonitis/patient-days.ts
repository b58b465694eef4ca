import type { Problem } from '../record/problem.ts';
import type { IsoDate } from '../time/zone.ts';
import { checkDate, dayNumber } from '../units/dates.ts';

/** A stretch of dialysis of one patient; both days are days of dialysis; `to` null = still on. */
export type DialysisPeriod = {
  patientId: string;
  from: IsoDate;
  to: IsoDate | null;
  dialysis: 'chronic' | 'acute';
};

/** A stretch of the calendar, both days within. */
export type Window = { from: IsoDate; to: IsoDate };

/** Days as day numbers, both within. */
export type DaySpan = { first: number; last: number };

/** Problems of the periods: days that do not exist, an end before its start. */
export const checkPeriods = (periods: readonly DialysisPeriod[]): readonly Problem[] =>
  periods.flatMap((period, i) => [
    ...checkDate(`periods[${i}].from`, period.from),
    ...(period.to === null ? [] : checkDate(`periods[${i}].to`, period.to, { from: period.from })),
  ]);

/**
 * The periods as spans without overlap, so that a day of a patient counts once however the periods were cut or
 * entered. Hospital days count as days of dialysis (ISPD-based reference appendix).
 * @param includeAcute acute dialysis is left out unless the ward says so
 */
export const spansByPatient = (
  periods: readonly DialysisPeriod[],
  includeAcute: boolean,
): ReadonlyMap<string, readonly DaySpan[]> => {
  const spans = new Map<string, DaySpan[]>();
  const wanted = periods
    .filter((period) => includeAcute || period.dialysis === 'chronic')
    .map(({ patientId, from, to }) => ({
      patientId,
      first: dayNumber(from),
      last: to === null ? Number.POSITIVE_INFINITY : dayNumber(to),
    }))
    .sort((a, b) => a.first - b.first);
  for (const { patientId, first, last } of wanted) {
    const own = spans.get(patientId) ?? [];
    const open = own.at(-1);
    if (open && first <= open.last + 1) open.last = Math.max(open.last, last);
    else own.push({ first, last });
    spans.set(patientId, own);
  }
  return spans;
};

/** A stretch of the calendar as day numbers. */
export const spanOf = ({ from, to }: Window): DaySpan => ({ first: dayNumber(from), last: dayNumber(to) });

/** Days of one patient's spans within another span, both ends inclusive. */
export const daysWithin = (spans: readonly DaySpan[], within: DaySpan): number =>
  spans.reduce(
    (days, span) => days + Math.max(0, Math.min(span.last, within.last) - Math.max(span.first, within.first) + 1),
    0,
  );

/** Patient-days at risk of all patients within a window. */
export const patientDays = (spans: ReadonlyMap<string, readonly DaySpan[]>, window: Window): number => {
  const within = spanOf(window);
  return [...spans.values()].reduce((days, own) => days + daysWithin(own, within), 0);
};
