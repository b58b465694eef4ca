import type { Entry, EntryKind } from '@slackwater/domain';
import { iso } from '../instants.ts';
import type { FoldedRow } from './tables.ts';

const OBSERVED = ['weight', 'bloodPressure', 'temperature', 'glucose', 'bowels', 'otherFluid', 'exitSite'] as const;
type Observed = (typeof OBSERVED)[number];

/** Whether an entry of this kind stands in the table `observation`. */
export const isObserved = (kind: EntryKind): kind is Observed => OBSERVED.includes(kind as Observed);

const NOTHING = {
  weight_kg: null,
  cavity: null,
  systolic_mm_hg: null,
  diastolic_mm_hg: null,
  celsius: null,
  glucose_mmol_per_l: null,
  meter: null,
  direction: null,
  route: null,
  volume_ml: null,
  bowels_opened: null,
};

/** The row of an observation, its numbers in columns of their own. */
export function observationRow(siteId: string, patientId: string, entry: Entry<Observed>): FoldedRow<'observation'> {
  return {
    ...NOTHING,
    site_id: siteId,
    id: entry.id,
    patient_id: patientId,
    ward_id: entry.wardId,
    visit_id: entry.visitId,
    kind: entry.kind,
    at: iso(entry.happenedAt),
    author_id: entry.author,
    content: entry.payload,
    ...numbersOf(entry),
  };
}

function numbersOf(entry: Entry<Observed>): Partial<FoldedRow<'observation'>> {
  switch (entry.kind) {
    case 'weight':
      return { weight_kg: entry.payload.weightKg, cavity: entry.payload.cavity };
    case 'bloodPressure':
      return { systolic_mm_hg: entry.payload.systolicMmHg, diastolic_mm_hg: entry.payload.diastolicMmHg };
    case 'temperature':
      return { celsius: entry.payload.celsius };
    case 'glucose':
      return { glucose_mmol_per_l: entry.payload.glucoseMmolPerL, meter: entry.payload.meter };
    case 'bowels':
      return { bowels_opened: entry.payload.opened };
    case 'otherFluid':
      return {
        direction: entry.payload.direction,
        route: entry.payload.route,
        volume_ml: entry.payload.volumeMl,
      };
    case 'exitSite':
      return {};
  }
}
