import { beginLearning } from '@slackwater/domain/kinetics/begin-learning';
import { learnDrain } from '@slackwater/domain/kinetics/drain-estimator';
import { drainKindOf } from '@slackwater/domain/kinetics/drain-kind';
import { modelledDrain } from '@slackwater/domain/kinetics/drain-model';
import { fillOf, LONDON } from '@slackwater/domain/testing/bedside';
import { HOUR_MS } from '@slackwater/domain/time/instant';
import { describe, expect, it } from 'vitest';
import { bandWords, expectedOut, expectedWords } from './expected-out.ts';

const FILLED_AT = Date.UTC(2026, 10, 25, 8);
const TABLE = { ufMl: 150, sdMl: 200 };
const after = (hours: number, learned = beginLearning(), fills = [fillOf(FILLED_AT)]) =>
  expectedOut(fills, FILLED_AT + hours * HOUR_MS, LONDON, learned, TABLE);

/** Taught by so many drains of 2,300 mL after 4 h of 2.27 %. */
const taughtBy = (drains: number) => {
  const kind = drainKindOf([fillOf(FILLED_AT)], FILLED_AT + 4 * HOUR_MS, LONDON.formulary);
  if (typeof kind === 'string') throw new Error(kind);
  const { value } = modelledDrain(kind, LONDON.settings);
  return Array.from({ length: drains }).reduce<ReturnType<typeof beginLearning>>(
    (learned) => learnDrain(learned, value!, 2300).value!,
    beginLearning(),
  );
};

describe('what a drain should bring', () => {
  it('is the patient’s own, and says from how many dwells', () => {
    const out = after(4, taughtBy(23))!;
    expect(out.by).toEqual({ source: 'dwells', drains: 23 });
    // The patient drained 2,300 mL each time.
    expect(Math.abs(out.outMl - 2300)).toBeLessThan(20);
    expect(out.lowMl).toBeLessThan(2300);
    expect(out.highMl).toBeGreaterThan(2300);
    expect(bandWords(out)).toMatch(/^2,\d\d0 to 2,\d\d0, from 23 earlier dwells$/);
  });

  it('is the population’s for a new patient', () => {
    const out = after(4)!;
    expect(out.by).toEqual({ source: 'population' });
    expect(bandWords(out)).toContain('by the population, no earlier dwell yet');
  });

  it.each([
    ['beyond the model’s 12 h', after(13), 'beyondModel'],
    ['of a fill below the model’s 500 mL', after(4, undefined, [fillOf(FILLED_AT, { filledMl: 400 })]), 'beyondModel'],
    [
      'of two strengths',
      after(4, undefined, [fillOf(FILLED_AT), fillOf(FILLED_AT, { solutionId: 'glucose-3.86' })]),
      'severalStrengths',
    ],
    ['while nothing could be read', expectedOut([fillOf(FILLED_AT)], FILLED_AT, LONDON, null, TABLE), 'notRead'],
  ])('is the ward’s table %s', (_, out, because) => {
    expect(out?.by).toEqual({ source: 'table', because });
  });

  it('by the table is the fill and what it says beyond, a standard deviation each way', () => {
    // 2,000 + 150 = 2,150 mL; ± 200.
    const out = after(13)!;
    expect(expectedWords(out)).toBe('2,150 mL');
    expect(bandWords(out)).toBe('1,950 to 2,350, by the ward’s table, beyond the model');
  });

  it('is not known where neither reaches', () => {
    expect(expectedOut([fillOf(FILLED_AT)], FILLED_AT + 20 * HOUR_MS, LONDON, beginLearning(), null)).toBeNull();
  });
});
