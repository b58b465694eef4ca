import type { BenchDatabases } from './databases.ts';

/** How long a comparison runs. */
export type Pace = { pairs: number; windowMs: number };

/** As the brief table in README.md is measured; and a quick look that proves nothing. */
export const FULL: Pace = { pairs: 11, windowMs: 1000 };
export const SHORT: Pace = { pairs: 3, windowMs: 250 };

/** What a row needs: a database of its own on a cluster with fsync on, and how long to measure. */
export type Bench = { databases: BenchDatabases; pace: Pace };

/** One line of the table. `value` is held against `bar`; both in `unit`. */
export type Measure = {
  what: string;
  value: number;
  unit: '×' | 'ms' | 'kB' | '/s' | 'MB/h';
  /** null: shown, and held against nothing. */
  bar: { at: 'least' | 'most'; value: number } | null;
  /** The quartiles of what `value` is the median of; null where it is counted, not sampled. */
  quartiles: readonly [number, number] | null;
  /** What both arms did, and the CPU of each operation. */
  beside: string;
};

export type Row = { name: string; run(bench: Bench): Promise<readonly Measure[]> };

/** Whether a measure keeps its bar. */
export const isMet = (value: number, bar: NonNullable<Measure['bar']>): boolean =>
  bar.at === 'least' ? value >= bar.value : value <= bar.value;
