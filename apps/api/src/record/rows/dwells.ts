import type { Dwell } from '@slackwater/domain';
import { isoOrNull } from '../instants.ts';
import type { FoldedRow } from './tables.ts';

/** A dwell as the domain made it, its sums in columns of their own. */
export const dwellRow = (siteId: string, patientId: string, dwell: Dwell): FoldedRow<'dwell'> => ({
  site_id: siteId,
  id: dwell.id,
  patient_id: patientId,
  fill_ended_at: isoOrNull(dwell.fills.at(-1)?.endedAt ?? null),
  drained_at: isoOrNull(dwell.drainedAt),
  filled_ml: dwell.filledMl,
  drained_ml: dwell.drainedMl,
  drain_minus_fill_ml: dwell.drainMinusFillMl,
  complete: dwell.complete,
  imported: dwell.imported,
  content: dwell,
});
