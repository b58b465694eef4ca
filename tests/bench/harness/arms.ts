import type { Pace } from './measure.ts';
import { median, quartiles } from './quantiles.ts';

/** One side of a comparison: works for a window, and says how fast (or, for waits, how slow) it was. */
export type Arm = (windowMs: number) => Promise<number>;

export type Compared = { ratio: number; quartiles: readonly [number, number]; a: number; b: number };

/**
 * Two arms in turn, A B B A A B B A …, so that what drifts hits both alike.
 * @returns the median of the pairs' ratios a ÷ b with its quartiles, and the median of each arm
 */
export async function compare(a: Arm, b: Arm, { pairs, windowMs }: Pace): Promise<Compared> {
  await a(windowMs);
  await b(windowMs);
  const seen: { a: number; b: number }[] = [];
  for (let pair = 0; pair < pairs; pair += 1) {
    const isTurned = pair % 2 === 1;
    const first = await (isTurned ? b : a)(windowMs);
    const second = await (isTurned ? a : b)(windowMs);
    seen.push(isTurned ? { a: second, b: first } : { a: first, b: second });
  }
  const ratios = seen.map((pair) => pair.a / pair.b);
  return {
    ratio: median(ratios),
    quartiles: quartiles(ratios),
    a: median(seen.map((pair) => pair.a)),
    b: median(seen.map((pair) => pair.b)),
  };
}
