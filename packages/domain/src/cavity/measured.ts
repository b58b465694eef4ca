import type { Infused, Measure } from './volume.ts';

/**
 * What a drain brought, without flush, in whole mL. A scale weighs: (gross g − tare g) ÷ density (default 1.000 g/mL,
 * which overstates 2 L by 10 to 40 mL: common practice). Flush that is in the bag never was in the patient.
 * Below zero when tare or flush exceed what was read: the judge refuses such a measure.
 */
export function measuredMl(measure: Measure): number {
  const readMl =
    measure.method === 'scale' ? (measure.grossG - measure.tareG) / measure.densityGPerMl : measure.volumeMl;
  return Math.round(readMl - (measure.flushIncluded ? measure.flushMl : 0));
}

/**
 * What a fill put into the patient, mL, as the nurse confirmed it; null = not known.
 * Computed: labelled volume + bag excess − flush − what was left in the bag (Maharjan & Davenport, J Nephrol 2019).
 */
export function infusedMl(infused: Infused): number | null {
  switch (infused.basis) {
    case 'wholeBag':
      return infused.labelledMl;
    case 'computed':
      return infused.labelledMl + infused.bagExcessMl - infused.flushMl - infused.leftInBagMl;
    case 'stated':
      return infused.volumeMl;
    case 'notKnown':
      return null;
  }
}
