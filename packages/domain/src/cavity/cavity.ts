import type { EpochMs } from '../time/instant.ts';

/** A fill that is in the cavity, or was in a dwell. */
export type FillInside = {
  /** The entry that ended the fill, or the admission that handed it over. */
  entryId: string;
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
  additives: string | null;
};

export type Cavity =
  /** After an admission with nothing known, or before any entry. */
  | { state: 'unknown'; since: EpochMs }
  | { state: 'empty'; since: EpochMs }
  | { state: 'holding'; since: EpochMs; fills: readonly FillInside[] };

/**
 * What is probably inside, in two honest figures (mL); `null` = not known, and then no fill is offered.
 * `bookMl` is the running sum, `flowMl` and its variance the estimate from a flow that ran to a stop.
 */
export type ProbablyInside = {
  bookMl: number | null;
  flowMl: number | null;
  flowVarianceMl2: number | null;
};

export type EmptyReason = 'secondDrainUnder100Ml' | 'imaging' | 'physician';
