/** One thing that is wrong with what somebody wants to write: the field, the value, what is allowed, and a sentence. */
export type Problem = {
  /** Stable; the wire and the screens know it. */
  code: string;
  /** Path inside the entry: `payload.flushMl`, `happenedAt`; `''` for the entry as a whole. */
  field: string;
  value: unknown;
  /** The allowed range or values, as text. */
  allowed: string;
  message: string;
};

/** A problem of a part as one of the whole: `flushMl` → `payload.flushMl`. */
export const within = (path: string, problem: Problem): Problem => ({
  ...problem,
  field: problem.field === '' ? path : `${path}.${problem.field}`,
});
