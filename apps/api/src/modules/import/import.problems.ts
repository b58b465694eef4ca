import type { Column } from './import.columns.ts';

/** What is wrong with one field of one line; `line` as a column: with the line as a whole. */
export type RowProblem = {
  /** Of the file; the header is line 1. */
  line: number;
  column: Column | 'line';
  value: string;
  allowed: string;
  message: string;
};

/** So many bad rows are listed; all are counted. */
export const MOST_LISTED = 1_000;

/** What is wrong with a file: bad rows counted, the first of them listed. */
export type BadRows = { count: number; listed: readonly RowProblem[] };

export const NO_BAD_ROWS: BadRows = { count: 0, listed: [] };

/** Collects the problems of lines that come one after another. */
export class BadRowCollector {
  #count = 0;
  readonly #listed: RowProblem[] = [];

  add(problems: readonly RowProblem[]): void {
    if (problems.length === 0) return;
    this.#count += 1;
    if (this.#count <= MOST_LISTED) this.#listed.push(...problems);
  }

  get found(): BadRows {
    return { count: this.#count, listed: this.#listed };
  }
}

/** Two lots of bad rows that have no line in common. */
export function together(one: BadRows, other: BadRows): BadRows {
  const listed = [...one.listed, ...other.listed].sort((a, b) => a.line - b.line);
  const lines = new Set<number>();
  return { count: one.count + other.count, listed: listed.filter(({ line }) => lines.add(line).size <= MOST_LISTED) };
}

/** What is wrong, with the value that is. */
export const wrongWords = ({ column, value, message }: RowProblem): string =>
  column === 'line' ? message : `${column} ${JSON.stringify(value)} ${message}`;

/** One problem as a line of text. */
export const problemWords = (problem: RowProblem): string =>
  `line ${problem.line}${problem.column === 'line' ? ':' : ','} ${wrongWords(problem)}; allowed: ${problem.allowed}`;
