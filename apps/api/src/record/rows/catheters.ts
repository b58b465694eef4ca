import type { Entry } from '@slackwater/domain';
import { iso, isoOrNull } from '../instants.ts';
import type { FoldedRow } from './tables.ts';

/** Insertion, first use, changes of the transfer set and removal. */
export const catheterRows = (
  siteId: string,
  patientId: string,
  entries: readonly Entry[],
): FoldedRow<'catheter_event'>[] =>
  entries
    .filter((entry) => entry.kind === 'catheter')
    .map((entry) => ({
      site_id: siteId,
      id: entry.id,
      patient_id: patientId,
      event: entry.payload.event,
      at: iso(entry.happenedAt),
      note: entry.payload.note,
      break_in_limit_ml: entry.payload.breakInLimitMl,
      break_in_until: isoOrNull(entry.payload.breakInUntil),
      break_in_posture: entry.payload.breakInPosture,
    }));

/** When a patient was on peritoneal dialysis. A stop without a start says nothing; ended periods come first. */
export function dialysisPeriodRows(
  siteId: string,
  patientId: string,
  entries: readonly Entry[],
): FoldedRow<'dialysis_period'>[] {
  const periods: FoldedRow<'dialysis_period'>[] = [];
  const stop = (at: number) => {
    const last = periods.at(-1);
    if (last !== undefined && last.stopped_at === null) periods[periods.length - 1] = { ...last, stopped_at: iso(at) };
  };
  for (const entry of entries) {
    if (entry.kind !== 'dialysisPeriod') continue;
    stop(entry.happenedAt);
    if (entry.payload.event === 'started') {
      periods.push({
        site_id: siteId,
        id: entry.id,
        patient_id: patientId,
        modality: entry.payload.modality,
        started_at: iso(entry.happenedAt),
        stopped_at: null,
        note: entry.payload.note,
      });
    }
  }
  return periods.toSorted((a, b) => Number(a.stopped_at === null) - Number(b.stopped_at === null));
}
