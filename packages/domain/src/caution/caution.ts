/** A standing fact about a patient, stated by a person at admission or later, and never inferred from anything. */
export type StandingCaution = 'diabetes' | 'maltoseIntolerance' | 'glycogenStorageDisease';

export const STANDING_CAUTIONS: readonly StandingCaution[] = [
  'diabetes',
  'maltoseIntolerance',
  'glycogenStorageDisease',
];
