import type { IsoDate } from '../time/zone.ts';

/** What a culture of the effluent (or of an exit site) has said so far. */
export type Culture =
  | { state: 'notTaken' }
  | { state: 'pending' }
  | { state: 'sterile' }
  /** Organisms as the laboratory names them; more than one = polymicrobial. */
  | { state: 'grown'; organisms: readonly string[] };

/** One diagnosed peritonitis. */
export type Episode = {
  id: string;
  patientId: string;
  /** Day on which the first criterion was met. */
  diagnosedOn: IsoDate;
  /** Last day of treatment; null = still treated. */
  treatedUntil: IsoDate | null;
  culture: Culture;
  /** What the patient was dialysed for. */
  dialysis: 'chronic' | 'acute';
};
