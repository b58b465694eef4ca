import { createRequire } from 'node:module';
import type { Rates } from '../../packages/domain/src/kinetics/integrate.ts';

/** The general-purpose adaptive solver; its own types do not reach its package. */
type Solver = {
  absoluteTolerance: number;
  relativeTolerance: number;
  maxSteps: number;
  solve(
    rates: (x: number, y: number[]) => ArrayLike<number>,
    from: number,
    start: number[],
    to: number,
  ): { y: number[]; outcome: number };
};
const { Solver } = createRequire(import.meta.url)('odex') as { Solver: new (size: number) => Solver };

/** Where a state is after so many minutes, by the adaptive solver. */
export function adaptiveEnd(rates: Rates, start: Float64Array, minutes: number, tolerance = 1e-12): readonly number[] {
  const solver = new Solver(start.length);
  solver.absoluteTolerance = tolerance;
  solver.relativeTolerance = tolerance;
  const rate = new Float64Array(start.length);
  const { y } = solver.solve(
    (minute, state) => {
      rates(minute, Float64Array.from(state), rate);
      return Array.from(rate);
    },
    0,
    Array.from(start),
    minutes,
  );
  return y;
}
