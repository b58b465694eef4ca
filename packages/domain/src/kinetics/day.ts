import type { Bag } from './fluid.ts';
import type { Membrane } from './membrane.ts';
import type { PerSolute } from './parameters.ts';

/** One dwell of a prescribed day. */
export type DayDwell = { bag: Bag; fillMl: number; dwellMinutes: number };

/** Whom a day is computed for. */
export type DayPatient = {
  /** What the ward takes to stay behind after a drain, mL. */
  residualMl: number;
  /** Fitted to a test; without it the population's for the body surface, and wider bands. */
  membrane?: Membrane;
  plasmaMmolPerL?: PerSolute;
  /** Urea distribution volume (body water), mL. */
  ureaVolumeMl: number;
  bodySurfaceM2: number;
};

export type DayInput = DayPatient & { dwells: readonly DayDwell[] };
