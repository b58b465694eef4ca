import { type Entry, type EpochMs, HOUR_MS, type WardPolicy } from '@slackwater/domain';
import { iso, isoOrNull } from '../instants.ts';
import type { FoldedRow } from './tables.ts';

type Prescriptions = {
  prescription_revision: FoldedRow<'prescription_revision'>[];
  prescription_item: FoldedRow<'prescription_item'>[];
};

/** The revisions of a patient's prescription, numbered from 1, and their items in the order of the day. */
export function prescriptionRows(siteId: string, patientId: string, entries: readonly Entry[]): Prescriptions {
  const revisions = entries.filter((entry) => entry.kind === 'prescribed');
  return {
    prescription_revision: revisions.map((entry, index) => ({
      site_id: siteId,
      id: entry.id,
      patient_id: patientId,
      ward_id: entry.wardId,
      number: index + 1,
      limits: entry.payload.limits,
      acute: entry.payload.acute,
      note: entry.payload.note,
      review_by: isoOrNull(entry.payload.reviewBy),
      prescribed_at: iso(entry.happenedAt),
      prescribed_by: entry.author,
    })),
    prescription_item: revisions.flatMap((entry) =>
      entry.payload.items.map((item, index) => ({
        site_id: siteId,
        revision_id: entry.id,
        id: item.id,
        place: index + 1,
        solution_id: item.solutionId,
        fill_ml: item.fillMl,
        additives: item.additives,
        dwell: item.dwell,
        window_minutes: item.windowMinutes,
        condition: item.condition,
      })),
    ),
  };
}

/** The orders given to a patient; one by telephone is to be countersigned within the ward's time. */
export function orderRows(
  siteId: string,
  patientId: string,
  entries: readonly Entry[],
  policy: WardPolicy,
): FoldedRow<'clinical_order'>[] {
  const orders = new Map<string, FoldedRow<'clinical_order'>>();
  const change = (id: string, changes: Partial<FoldedRow<'clinical_order'>>) => {
    const order = orders.get(id);
    if (order !== undefined) orders.set(id, { ...order, ...changes });
  };
  for (const entry of entries) {
    if (entry.kind === 'ordered') {
      const byTelephone = entry.payload.telephone;
      orders.set(entry.id, {
        site_id: siteId,
        id: entry.id,
        patient_id: patientId,
        ward_id: entry.wardId,
        what: entry.payload.content.what,
        content: entry.payload.content,
        note: entry.payload.note,
        given_at: iso(entry.happenedAt),
        given_by: entry.author,
        telephone_physician: byTelephone?.physician ?? null,
        countersign_by: byTelephone === null ? null : iso(countersignBy(entry.happenedAt, policy)),
        countersigned_at: null,
        countersigned_by: null,
        ended_at: null,
        ended: null,
      });
    } else if (entry.kind === 'countersigned') {
      change(entry.payload.orderId, { countersigned_at: iso(entry.happenedAt), countersigned_by: entry.author });
    } else if (entry.kind === 'orderEnded') {
      change(entry.payload.orderId, { ended_at: iso(entry.happenedAt), ended: entry.payload.why });
    }
  }
  return [...orders.values()];
}

const countersignBy = (givenAt: EpochMs, policy: WardPolicy): EpochMs =>
  givenAt + policy.settings.countersignHours * HOUR_MS;
