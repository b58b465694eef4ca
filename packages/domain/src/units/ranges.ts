import type { Problem } from '../record/problem.ts';

/** What a number must keep to; both ends are allowed unless `moreThanLeast`. */
export type Range = {
  least: number;
  most: number;
  /** Unit as people read it: "mmol/L". Empty for a ratio or a count. */
  unit: string;
  /** `least` itself is refused: a divisor may not be zero. */
  moreThanLeast?: true;
  /** Only whole numbers. */
  whole?: true;
};

/** The range in words: "more than 0 and at most 100 mmol/L", "whole, 0 to 24". */
export const rangeWords = ({ least, most, unit, moreThanLeast, whole }: Range): string => {
  const ends =
    most === Number.POSITIVE_INFINITY
      ? moreThanLeast
        ? `more than ${least}`
        : `${least} or more`
      : moreThanLeast
        ? `more than ${least} and at most ${most}`
        : `${least} to ${most}`;
  return `${whole ? 'whole, ' : ''}${ends}${unit === '' ? '' : ` ${unit}`}`;
};

/**
 * Checks one number that came from outside. `null` and `undefined` are "missing", text and NaN are "not a number".
 * @returns [] when it may be used, else one problem that names field, value and allowed range
 */
export const checkNumber = (field: string, value: unknown, range: Range): readonly Problem[] => {
  const allowed = rangeWords(range);
  const problem = (code: string, what: string): readonly Problem[] => [
    { code, field, value, allowed, message: `${field} ${what}; allowed: ${allowed}` },
  ];
  if (value === null || value === undefined) return problem('missing', 'is missing');
  if (typeof value !== 'number' || !Number.isFinite(value)) {
    return problem('not-a-number', `is not a number (${JSON.stringify(value) ?? String(value)})`);
  }
  const tooLow = range.moreThanLeast ? value <= range.least : value < range.least;
  if (tooLow || value > range.most) return problem('out-of-range', `is ${value}`);
  if (range.whole && !Number.isInteger(value)) return problem('not-whole', `is ${value}`);
  return [];
};

/** All numbers of one input against their ranges, in the order of `ranges`. */
export const checkNumbers = <K extends string>(
  values: Readonly<Record<NoInfer<K>, unknown>>,
  ranges: Readonly<Record<K, Range>>,
): readonly Problem[] =>
  (Object.keys(ranges) as K[]).flatMap((field) => checkNumber(field, values[field], ranges[field]));

/** Problems of a part as those of the whole: `sampledMl` → `dialysate.sampledMl`, in the field and in the sentence. */
export const ofPart = (part: string, problems: readonly Problem[]): readonly Problem[] =>
  problems.map((problem) => ({
    ...problem,
    field: `${part}.${problem.field}`,
    message: `${part}.${problem.message}`,
  }));
