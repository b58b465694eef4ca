import { ADEQUACY } from './compute/adequacy.ts';
import { KINETICS } from './compute/kinetics.ts';
import { PERITONITIS } from './compute/peritonitis.ts';
import { SOLUTION_COMPOSITION } from './compute/solution-composition.ts';
import { STATISTICS } from './compute/statistics.ts';
import { TRANSPORT } from './compute/transport.ts';
import { UNITS } from './compute/units.ts';
import type { Computations } from './rows.ts';

/** Every file of reference rows with what computes it; the report prints them in this order. */
export const ROOMS: readonly { room: string; computations: Computations }[] = [
  { room: 'adequacy', computations: ADEQUACY },
  { room: 'transport', computations: TRANSPORT },
  { room: 'kinetics', computations: KINETICS },
  { room: 'peritonitis', computations: PERITONITIS },
  { room: 'solution-composition', computations: SOLUTION_COMPOSITION },
  { room: 'statistics', computations: STATISTICS },
  { room: 'units', computations: UNITS },
];
