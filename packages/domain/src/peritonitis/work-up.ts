import type { Appearance, Comfort } from '../effluent/effluent.ts';
import type { Payloads } from '../record/entry.ts';
import type { EpochMs } from '../time/instant.ts';

export type Sample = Payloads['sampleTaken'] & { id: string; at: EpochMs };
export type Antibiotic = Omit<Payloads['antibioticStarted'], 'workUpId'> & { id: string; at: EpochMs };
export type LabResult = Payloads['resultReported'] & { id: string; at: EpochMs };

/** A suspected peritonitis from the drain that raised the suspicion to its conclusion. */
export type WorkUp = {
  /** The entry that opened it. */
  id: string;
  openedAt: EpochMs;
  /** The drain that opened it. */
  drainId: string;
  drainStartedAt: EpochMs;
  appearance: readonly Appearance[];
  /** How long that fluid had dwelt; null = not known. */
  dwellMinutes: number | null;
  /** Oldest first. */
  samples: readonly Sample[];
  results: readonly LabResult[];
  /** Each word about each antibiotic. */
  antibiotics: readonly Antibiotic[];
  closed: (Omit<Payloads['workUpClosed'], 'workUpId'> & { at: EpochMs }) | null;
};

/** What was said of comfort, at a visit or between visits. */
export type SaidComfort = {
  entryId: string;
  at: EpochMs;
  visitId: string | null;
  when: 'drain' | 'fill' | 'between';
  comfort: Comfort;
};

/** The work-up that is open; null = none. At most one is. */
export const openWorkUp = (workUps: readonly WorkUp[]): WorkUp | null =>
  workUps.find((workUp) => workUp.closed === null) ?? null;
