import { readFileSync } from 'node:fs';

/** One published or computed value and how it is asked for. */
export type ReferenceRow = {
  quantity: string;
  /** Name in the room's table of computations. */
  compute: string;
  /** The input itself, or the name of one of the file's `inputs`. */
  input: unknown;
  /** Path into the answer ("weeklyKtV.total.value", "issues.0.code"); without it, the answer itself. */
  figure?: string;
  expected: number | string | boolean | null;
  /** Half-width of what still counts as equal; null for words. */
  tolerance: number | null;
  unit: string;
  /** `differ`: `expected` is a known mistake, and the answer must lie further from it than the tolerance. */
  must: 'match' | 'differ';
  source: string;
  /** P published · W teaching page · M from memory · C computed independently · T common practice. */
  mark: 'P' | 'W' | 'M' | 'C' | 'T';
};

/** The computations of a room by name. Inputs come from JSON, so each states the shape it expects. */
// biome-ignore lint/suspicious/noExplicitAny: rows are data; a row of the wrong shape comes out as a miss
export type Computations = Readonly<Record<string, (input: any) => unknown>>;

export type Outcome = { row: ReferenceRow; got: unknown; holds: boolean };

const FOLDER = new URL('../../shared/reference/', import.meta.url);

/** The rows of one file of `shared/reference/`, named inputs filled in. The report and the tests both read them here. */
export const readRows = (room: string): readonly ReferenceRow[] => {
  const file = JSON.parse(readFileSync(new URL(`${room}.json`, FOLDER), 'utf8')) as {
    inputs?: Readonly<Record<string, unknown>>;
    rows: readonly ReferenceRow[];
  };
  const fill = (input: unknown): unknown => {
    if (typeof input === 'string') return file.inputs?.[input];
    if (Array.isArray(input) || input === null || typeof input !== 'object') return input;
    return Object.fromEntries(
      Object.entries(input).map(([key, value]) => [
        key,
        typeof value === 'string' && file.inputs && value in file.inputs ? file.inputs[value] : value,
      ]),
    );
  };
  return file.rows.map((row) => ({ ...row, input: fill(row.input) }));
};

/** Computes a row and says whether it holds. */
export const tryRow = (row: ReferenceRow, computations: Computations): Outcome => {
  const compute = computations[row.compute];
  if (!compute) throw new Error(`No computation is called "${row.compute}" (row "${row.quantity}")`);
  const got = figureOf(compute(row.input), row.figure);
  const equal = isEqual(got, row);
  return { row, got, holds: row.must === 'match' ? equal : typeof got === 'number' && !equal };
};

const isEqual = (got: unknown, { expected, tolerance }: ReferenceRow): boolean =>
  typeof expected === 'number' && typeof got === 'number'
    ? Math.abs(got - expected) <= (tolerance ?? 0)
    : got === expected;

/** A refusal reads "refused: <code of its first reason>". */
const figureOf = (answer: unknown, figure: string | undefined): unknown => {
  if (isComputed(answer)) {
    if (figure?.startsWith('issues.')) return dig(answer, figure);
    if (answer.value === null) return `refused: ${answer.issues[0]?.code}`;
    return dig(answer.value, figure);
  }
  return dig(answer, figure);
};

const isComputed = (answer: unknown): answer is { value: unknown; issues: readonly { code: string }[] } =>
  typeof answer === 'object' && answer !== null && 'value' in answer && 'issues' in answer;

const dig = (from: unknown, path: string | undefined): unknown =>
  path === undefined
    ? from
    : path
        .split('.')
        .reduce<unknown>(
          (at, key) => (at === null || at === undefined ? at : (at as Record<string, unknown>)[key]),
          from,
        );
