import type { EmptyReason, FillInside, Reckoning } from '../cavity/cavity.ts';
import type { Appearance } from '../effluent/effluent.ts';
import type { EpochMs } from '../time/instant.ts';

/** One drain of a dwell, with what it brought. */
export type DrainOut = {
  /** The entry that started the drain. */
  entryId: string;
  visitId: string;
  startedAt: EpochMs;
  endedAt: EpochMs | null;
  /** The volume that counts (exact, else reading), without flush, mL; null = not measured (yet). */
  drainedMl: number | null;
  readingMl: number | null;
  exactMl: number | null;
  flow: 'stopped' | 'notStopped' | null;
  appearance: readonly Appearance[];
};

/**
 * All fills up to the next drain, all drains up to the next fill. Derived, never stored as a truth of its own.
 * `id` is the entry that ended its first fill (or the admission), so a refold finds the same dwell again.
 */
export type Dwell = {
  id: string;
  fills: readonly FillInside[];
  drains: readonly DrainOut[];
  /** End of its last drain: the instant by which shift and ward day are told. null while open. */
  drainedAt: EpochMs | null;
  filledMl: number | null;
  drainedMl: number | null;
  /** drained − filled; null while anything is missing. */
  drainMinusFillMl: number | null;
  /** The flow ran to a stop and the short-drain rule does not hold: only then "net ultrafiltration". */
  complete: boolean;
  /** Expected ultrafiltration of this strength and length and its spread, mL; null = not known. */
  expectedUfMl: number | null;
  expectedUfSdMl: number | null;
  /** What was reckoned to be inside before its first fill. */
  before: Reckoning;
  /** When a person confirmed after its drains that the cavity is empty, and on what ground. */
  emptyConfirmed: { at: EpochMs; by: EmptyReason } | null;
  imported: boolean;
};
