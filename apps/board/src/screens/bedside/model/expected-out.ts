import type { DrainEstimator, EpochMs, FillInside, WardPolicy } from '@slackwater/domain';
import type { ExpectedUf } from '@slackwater/domain/cavity/expected';
import { drainKindOf } from '@slackwater/domain/kinetics/drain-kind';
import { expectedDrain } from '@slackwater/domain/kinetics/expected-drain';
import { formatMl, formatWhole } from '@slackwater/domain/words/numbers';

/** Whose figure it is: the patient's own dwells, the population while none taught, or the ward's table. */
export type ExpectedBy =
  | { source: 'dwells'; drains: number }
  | { source: 'population' }
  | { source: 'table'; because: 'severalStrengths' | 'beyondModel' | 'notRead' };

/**
 * What a drain should bring, mL. By the dwells or the population four in five such drains lie from low to high; by the
 * table it is one standard deviation each way.
 */
export type ExpectedOut = { outMl: number; lowMl: number; highMl: number; by: ExpectedBy };

/**
 * What the drain of these fills should bring when it begins at `at`: as learned from the patient's earlier dwells where
 * the model can carry it, else by the ward's table.
 * @param learned null while the earlier dwells could not be read
 * @param table what the ward's table says beyond the fill; null where it does not reach
 * @returns null where neither knows
 */
export function expectedOut(
  fills: readonly FillInside[],
  at: EpochMs,
  policy: WardPolicy,
  learned: DrainEstimator | null,
  table: ExpectedUf | null,
): ExpectedOut | null {
  const byTable = (because: Extract<ExpectedBy, { source: 'table' }>['because']): ExpectedOut | null => {
    if (table === null) return null;
    const outMl = fills.reduce((sum, fill) => sum + (fill.filledMl ?? 0), table.ufMl);
    const lowMl = Math.max(0, outMl - table.sdMl);
    return { outMl, lowMl, highMl: outMl + table.sdMl, by: { source: 'table', because } };
  };
  if (learned === null) return byTable('notRead');
  const kind = drainKindOf(fills, at, policy.formulary);
  if (typeof kind === 'string') return byTable(kind === 'severalStrengths' ? kind : 'beyondModel');
  const { value } = expectedDrain(learned, kind, { residualMl: policy.settings.residualMl });
  if (value === null) return byTable('beyondModel');
  const by: ExpectedBy = value.from === 0 ? { source: 'population' } : { source: 'dwells', drains: value.from };
  return { outMl: value.expectedMl, lowMl: value.lowMl, highMl: value.highMl, by };
}

const to10 = (ml: number): number => Math.round(ml / 10) * 10;

/** "2,180 mL", to tens. */
export const expectedWords = ({ outMl }: ExpectedOut): string => formatMl(to10(outMl));

/** "1,990 to 2,370, from 23 earlier dwells". */
export const bandWords = ({ lowMl, highMl, by }: ExpectedOut): string =>
  `${formatWhole(to10(lowMl))} to ${formatWhole(to10(highMl))}, ${byWords(by)}`;

/** Whose figure it is, and why it is not the patient's own. */
export function byWords(by: ExpectedBy): string {
  switch (by.source) {
    case 'dwells':
      return by.drains === 1 ? 'from 1 earlier dwell' : `from ${by.drains} earlier dwells`;
    case 'population':
      return 'by the population, no earlier dwell yet';
    case 'table':
      return `by the ward’s table, ${BECAUSE[by.because]}`;
  }
}

/** What the range means. */
export const rangeWords = ({ source }: ExpectedBy): string =>
  source === 'table'
    ? 'An estimate, not an instruction. About two drains in three lie in the range.'
    : 'An estimate, not an instruction. About four drains in five lie in the range.';

const BECAUSE = {
  severalStrengths: 'several strengths inside',
  beyondModel: 'beyond the model',
  notRead: 'earlier dwells not read',
} as const;
