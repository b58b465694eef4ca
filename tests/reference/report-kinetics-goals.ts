import { median } from '../../packages/domain/src/statistics/median.ts';
import { type Foresight, LENGTHS, type Method } from './report-kinetics-run.ts';

/** Half-open ranges of drains seen before: the estimator as it grows. */
export const SEEN = [
  { name: '0', from: 0, to: 1 },
  { name: '1 to 4', from: 1, to: 5 },
  { name: '5 to 19', from: 5, to: 20 },
  { name: '20 to 49', from: 20, to: 50 },
  { name: '50 and more', from: 50, to: Number.POSITIVE_INFINITY },
] as const;

/** Share of the drains that lay within the band of a size. */
export const coverage = (foresights: readonly Foresight[], band = 0.8): number =>
  foresights.filter(({ bandShare }) => bandShare <= band).length / foresights.length;

export const medianErrorMl = (foresights: readonly Foresight[], method: Method): number =>
  median(foresights.map(({ errorMl }) => errorMl[method])) ?? Number.NaN;

export const seenFrom = (foresights: readonly Foresight[], from: number, to = Number.POSITIVE_INFINITY) =>
  foresights.filter(({ seen }) => seen >= from && seen < to);

export type Goal = { goal: string; asked: string; got: number; held: boolean };

/** What was asked of the estimator, and what it did. Shares 0 to 1. */
export function goalsOf(foresights: readonly Foresight[]): readonly Goal[] {
  const later = seenFrom(foresights, 5);
  const between = (goal: string, from: number, to: number, got: number): Goal => ({
    goal,
    asked: `${percent(from)} to ${percent(to)}`,
    got,
    held: got >= from && got <= to,
  });
  const atLeast = (goal: string, least: number, got: number): Goal => ({
    goal,
    asked: `${percent(least)} or more`,
    got,
    held: got >= least,
  });
  const below = (method: Method, among: readonly Foresight[]): number =>
    1 - medianErrorMl(among, 'learned') / medianErrorMl(among, method);
  const many = seenFrom(foresights, 20);
  return [
    between(`80 % band, ${later.length} drains from the sixth on`, 0.75, 0.85, coverage(later)),
    ...LENGTHS.map((length) =>
      between(`80 % band, ${length}`, 0.75, 0.85, coverage(later.filter((one) => one.length === length))),
    ),
    atLeast('80 % band, first drain of a new kind', 0.7, coverage(foresights.filter(({ newKind }) => newKind))),
    atLeast('error below "last of this kind", from the 21st on', 0.25, below('last of this kind', many)),
    atLeast('error below the moving average, from the 21st on', 0.1, below('moving average', many)),
    atLeast(
      'error below the moving average, second to fifth',
      0.2,
      below('moving average', seenFrom(foresights, 1, 5)),
    ),
    {
      goal: 'error above knowing the true parameters, from the 21st on',
      asked: 'at most 10 %',
      got: -below('true parameters', many),
      held: -below('true parameters', many) <= 0.1,
    },
  ];
}

export const percent = (share: number): string => `${(100 * share).toFixed(1)} %`;
