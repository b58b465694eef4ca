import type { Additive } from '../prescription/additive.ts';
import type { EpochMs } from '../time/instant.ts';

/** One fill, as it is told on: null = not known, and said so. */
export type FillSaid = {
  solutionId: string | null;
  filledMl: number | null;
  endedAt: EpochMs | null;
  additives: readonly Additive[];
};

/** What is inside, as it is told to whoever takes the patient over. */
export type FluidSaid = {
  cavity: 'holding' | 'unknown';
  since: EpochMs;
  /** Oldest first; [] where nobody knows what is inside. */
  fills: readonly FillSaid[];
  /** What was probably left before those fills, in whole mL by the flow and by the book; null = not known. */
  leftMl: { flow: number | null; book: number | null };
  /** When it is to be drained; null = nobody prescribed it. */
  drainDueAt: EpochMs | null;
};

/** Who was told what about the fluid that leaves with the patient. */
export type FluidHandover = { toWhom: string; said: FluidSaid };

/** As it stands in the state: when, by whom, and where the patient went. */
export type FluidHandedOver = FluidHandover & {
  at: EpochMs;
  by: string | null;
  /** A ward's id, or the words of a discharge. */
  to: { ward: string } | { place: string };
};
