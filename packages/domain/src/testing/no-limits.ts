import type { PatientLimits } from '../prescription/prescription.ts';

/** A prescription without any limit of the patient's own. */
export const NO_LIMITS: PatientLimits = {
  mostInsideMl: null,
  weightTargetKg: null,
  weightTargetCavity: null,
  systolicLowMmHg: null,
  systolicHighMmHg: null,
  overRemovalMl: null,
  overRemovalHours: null,
};
