import { describe, expect, it } from 'vitest';
import { STANDARD_FORMULARY } from '../solution/formulary.ts';
import { simulateDay } from './day-model.ts';
import { type SearchResult, searchPrescriptions } from './search.ts';
import { candidatesWith } from './search-candidates.ts';
import type { SearchQuestion } from './search-question.ts';

const question = (change: Partial<SearchQuestion> = {}): SearchQuestion => ({
  formulary: STANDARD_FORMULARY,
  fillsMl: [2000],
  mostExchanges: 4,
  nightMinutes: [540],
  exchangeMinutes: 30,
  patient: { residualMl: 200, ureaVolumeMl: 36_000, bodySurfaceM2: 1.73 },
  targets: { weeklyKtV: 1.7, ultrafiltrationMl: 800 },
  limits: { mostInsideMl: 3400 },
  ...change,
});

const finish = (asked: SearchQuestion): SearchResult => {
  const steps = searchPrescriptions(asked).value!;
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
};

describe('a search for a prescription', () => {
  it('finds days that reach every target, least glucose first, and none with fewer exchanges does', () => {
    const { reached, nearest } = finish(question());
    expect(nearest).toBeNull();
    expect(reached.length).toBeGreaterThan(1);
    for (const { figures } of reached) {
      expect(figures.weeklyKtV.value).toBeGreaterThanOrEqual(1.7);
      expect(figures.ultrafiltrationMl.value).toBeGreaterThanOrEqual(800);
      expect(figures.mostInsideMl.high).toBeLessThanOrEqual(3400);
    }
    const glucose = reached.map(({ figures }) => figures.glucoseAbsorbedG.value);
    expect(glucose).toEqual([...glucose].sort((a, b) => a - b));
    const exchanges = reached[0]!.dwells.length;
    expect(finish(question({ mostExchanges: exchanges - 1 })).reached).toEqual([]);
  });

  it('finds the best of all candidates of its number of exchanges, by trying them one by one', () => {
    const best = finish(question()).reached[0]!;
    const { patient, targets, limits } = question();
    const byHand = candidatesWith(best.dwells.length, question())
      .map((dwells) => simulateDay({ ...patient, dwells }).value)
      .filter(
        (day) =>
          day !== null &&
          day.weeklyKtV.value >= targets.weeklyKtV! &&
          day.ultrafiltrationMl.value >= targets.ultrafiltrationMl! &&
          day.mostInsideMl.high <= limits.mostInsideMl,
      )
      .map((day) => day!.glucoseAbsorbedG.value);
    expect(best.figures.glucoseAbsorbedG.value).toBe(Math.min(...byHand));
  });

  it('shows the nearest day when none reaches the targets', () => {
    const { reached, nearest } = finish(question({ targets: { weeklyKtV: 4 } }));
    expect(reached).toEqual([]);
    expect(nearest!.dwells).toHaveLength(4);
  });

  it('tells how far it is, and stops when nobody asks any more', () => {
    const steps = searchPrescriptions(question()).value!;
    const first = steps.next();
    expect(first.value).toMatchObject({ tried: 1 });
    expect((steps.next().value as { tried: number; of: number }).of).toBeGreaterThan(50);
    steps.return(undefined as never);
    expect(steps.next().done).toBe(true);
  });

  it('gives icodextrin once a day, overnight, never a bag that the ward does not keep, never the same fluid twice over', () => {
    const candidates = candidatesWith(3, question({ fillsMl: [3000] }));
    expect(candidates.flat().some(({ solutionId }) => solutionId === 'icodextrin-7.5')).toBe(false);
    const two = candidatesWith(3, question());
    for (const dwells of two) {
      expect(dwells.slice(0, -1).some(({ solutionId }) => solutionId === 'icodextrin-7.5')).toBe(false);
    }
    expect(two.flat().some(({ solutionId }) => solutionId.startsWith('bicarbonate'))).toBe(false);
    // Two day dwells out of three strengths in any order, and a night dwell out of four.
    expect(two).toHaveLength(6 * 4);
  });

  it.each([
    [{ targets: {} }, 'targets'],
    [{ targets: { weeklyKtV: 0 } }, 'targets.weeklyKtV'],
    [{ fillsMl: [] }, 'fillsMl'],
    [{ fillsMl: [2000, 9000] }, 'fillsMl.1'],
    [{ formulary: [] }, 'formulary'],
    [{ mostExchanges: 2.5 }, 'mostExchanges'],
    [{ limits: { mostInsideMl: Number.NaN } }, 'limits.mostInsideMl'],
  ])('is refused when it makes no sense: %#', (change, field) => {
    const { value, issues } = searchPrescriptions(question(change));
    expect(value).toBeNull();
    expect(issues[0]).toMatchObject({ field });
  });
});
