import type { Entry } from '@slackwater/domain';
import { iso } from '../instants.ts';
import type { FoldedRow } from './tables.ts';

/** Who has a patient, from when to when. */
export const assignmentRow = (
  siteId: string,
  patientId: string,
  entry: Entry<'assigned'>,
): FoldedRow<'assignment'> => ({
  site_id: siteId,
  id: entry.id,
  patient_id: patientId,
  ward_id: entry.wardId,
  account_id: entry.payload.accountId,
  name: entry.payload.name,
  from_at: iso(entry.payload.from),
  to_at: iso(entry.payload.to),
});
