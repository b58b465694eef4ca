import type { Problem } from '../record/problem.ts';

/**
 * A computed quantity. Either a value, with `issues` that belong beside it (an odd sample, a test at the wrong time),
 * or no value, and then `issues` says why: at least one, each naming the field, what came and what is allowed.
 * Nothing is ever computed from nonsense, and what is missing never becomes zero.
 */
export type Computed<T> =
  | { value: T; issues: readonly Problem[] }
  | { value: null; issues: readonly [Problem, ...Problem[]] };

/** The value, with what has to be said beside it. */
export const computed = <T>(value: T, issues: readonly Problem[] = []): Computed<T> => ({ value, issues });

/** `make()` when nothing is wrong, else the reasons. */
export const unlessRefused = <T>(problems: readonly Problem[], make: () => Computed<T>): Computed<T> => {
  const [first, ...rest] = problems;
  return first === undefined ? make() : { value: null, issues: [first, ...rest] };
};

/** No value, for one reason. */
export const refused = (problem: Problem): { value: null; issues: readonly [Problem] } => ({
  value: null,
  issues: [problem],
});
