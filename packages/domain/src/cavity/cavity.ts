import type { Additive } from '../prescription/additive.ts';
import type { EpochMs } from '../time/instant.ts';

/** A fill that is in the cavity, or was in a dwell. */
export type FillInside = {
  /** The entry that ended the fill, or the admission that handed it over. */
  entryId: string;
  /** The visit that gave it; null when it was handed over or imported. */
  visitId: string | null;
  solutionId: string | null;
  /** mL; null = not known. */
  filledMl: number | null;
  startedAt: EpochMs | null;
  /** The dwell counts from here; null only for a fill of unknown time that was handed over. */
  endedAt: EpochMs | null;
  /** Revision and item that the bag check named; null for handed-over or order-only fills. */
  revisionId: string | null;
  itemId: string | null;
  orderId: string | null;
  additives: readonly Additive[];
};

export type Cavity =
  /** After an admission with nothing known, or before any entry. */
  | { state: 'unknown'; since: EpochMs }
  | { state: 'empty'; since: EpochMs }
  | { state: 'holding'; since: EpochMs; fills: readonly FillInside[] };

/**
 * What is probably inside *as the last drain left it* (fills given since come on top), in two honest figures (mL);
 * `null` = not known, and then no fill is offered. `bookMl` is the running sum, `flowMl` and its variance the estimate from a flow that ran to a stop.
 */
export type ProbablyInside = {
  bookMl: number | null;
  flowMl: number | null;
  flowVarianceMl2: number | null;
};

/** The two figures, and what the patient's own course says about the expected ultrafiltration. */
export type Reckoning = ProbablyInside & {
  /** The patient's own correction to the expected ultrafiltration, mL a dwell; 0 until a confirmation gave one. */
  ufCorrectionMl: number;
  /** What that correction was learned from; null until a confirmation gave one. */
  correctionFrom: { dwells: number; surplusMl: number; since: EpochMs; until: EpochMs } | null;
  /**
   * Since a person last said that the cavity is empty, when and on what ground: Σ (drained − filled − expected by the
   * table). null = not known.
   */
  sinceEmpty: { at: EpochMs; by: EmptyReason | 'admission'; dwells: number; surplusMl: number } | null;
};

export type EmptyReason = 'secondDrainUnder100Ml' | 'imaging' | 'physician';
