import {
  type BedsideState,
  canonical,
  type Dwell,
  type Entry,
  type EntryKind,
  type WardPolicy,
} from '@slackwater/domain';
import { alertRows, alertRowsOf } from './alerts.ts';
import { assignmentRow } from './assignments.ts';
import { bagRows } from './bags.ts';
import { catheterRows, dialysisPeriodRows } from './catheters.ts';
import { dwellRow } from './dwells.ts';
import { isObserved, observationRow } from './observations.ts';
import { orderRows, prescriptionRows } from './prescriptions.ts';
import { stayRows } from './stays.ts';
import type { FoldedRows } from './tables.ts';
import { visitRows, visitRowsOf } from './visits.ts';

/**
 * Kinds that say where a patient lies and what is prescribed: few in a stay, so their rows are always made from all of
 * them. The partial index `entry_standing` finds them.
 */
const STANDING_KINDS: ReadonlySet<EntryKind> = new Set<EntryKind>([
  'admitted',
  'transferredOut',
  'transferredIn',
  'movedBed',
  'discharged',
  'catheter',
  'dialysisPeriod',
  'prescribed',
  'ordered',
  'countersigned',
  'orderEnded',
]);

export const isStanding = (kind: EntryKind): boolean => STANDING_KINDS.has(kind);

/** Whose rows, under which policy. */
export type RowsOf = { siteId: string; patientId: string; policy: WardPolicy };

/** All rows of a patient, made from all its entries: the definition, used by a refold and by `npm run rebuild`. */
export function allRows(of: RowsOf, entries: readonly Entry[], dwells: readonly Dwell[]): Required<FoldedRows> {
  const { siteId, patientId } = of;
  const counting = canonical(entries);
  return {
    ...standingRows(of, counting),
    visit: visitRows(siteId, patientId, counting),
    dwell: dwells.map((dwell) => dwellRow(siteId, patientId, dwell)),
    alert: alertRows(siteId, patientId, counting),
    observation: counting
      .filter((entry) => isObserved(entry.kind))
      .map((entry) => observationRow(siteId, patientId, entry as Parameters<typeof observationRow>[2])),
    bag_use: bagRows(siteId, patientId, counting),
    assignment: counting
      .filter((entry) => entry.kind === 'assigned')
      .map((entry) => assignmentRow(siteId, patientId, entry)),
  };
}

/** Stays, prescriptions, orders, catheter and dialysis periods, from the entries that count. */
function standingRows({ siteId, patientId, policy }: RowsOf, counting: readonly Entry[]) {
  return {
    stay: stayRows(siteId, patientId, counting),
    ...prescriptionRows(siteId, patientId, counting),
    clinical_order: orderRows(siteId, patientId, counting, policy),
    catheter_event: catheterRows(siteId, patientId, counting),
    dialysis_period: dialysisPeriodRows(siteId, patientId, counting),
  };
}

/**
 * The rows that new entries change, when none of them is a correction and each is the newest. `standing` holds all
 * entries of standing kinds, the new ones included, or null where none of the new ones is of such a kind.
 */
export function changedRows(
  of: RowsOf & { wardId: string },
  entries: readonly Entry[],
  standing: readonly Entry[] | null,
  before: BedsideState,
  after: BedsideState,
  dwells: readonly Dwell[],
): FoldedRows {
  const { siteId, patientId, wardId } = of;
  return {
    ...(standing === null ? {} : standingRows(of, canonical(standing))),
    visit: visitRowsOf(siteId, patientId, entries, after),
    dwell: dwells.map((dwell) => dwellRow(siteId, patientId, dwell)),
    alert: alertRowsOf(siteId, patientId, wardId, entries, before),
    observation: entries
      .filter((entry) => isObserved(entry.kind))
      .map((entry) => observationRow(siteId, patientId, entry as Parameters<typeof observationRow>[2])),
    bag_use: bagRows(siteId, patientId, entries),
    assignment: entries
      .filter((entry) => entry.kind === 'assigned')
      .map((entry) => assignmentRow(siteId, patientId, entry)),
  };
}
