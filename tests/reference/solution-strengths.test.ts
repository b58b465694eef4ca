import { STANDARD_FORMULARY, solutionOf } from '@slackwater/domain/solution/formulary';
import { describe, expect, it } from 'vitest';

/** Molar masses, g/mol (CRC Handbook of Chemistry and Physics, from memory): anhydrous glucose, its monohydrate. */
const GLUCOSE = 180.156;
const GLUCOSE_MONOHYDRATE = 198.171;

describe('strength of the standard fluids', () => {
  it('anhydrous is 0.90910 of the monohydrate (computed from the molar masses)', () => {
    expect(GLUCOSE / GLUCOSE_MONOHYDRATE).toBeCloseTo(0.9091, 4);
  });

  /** 1.5, 2.5, 4.25 % dextrose hydrous by product information → 1.364, 2.273, 3.864 % glucose (mark C). */
  it.each([
    ['glucose-1.36', 1.5, 1.364],
    ['glucose-2.27', 2.5, 2.273],
    ['glucose-3.86', 4.25, 3.864],
  ])('%s holds what %f %% dextrose monohydrate gives: %f %%', (id, dextrosePercent, glucosePercent) => {
    const solution = solutionOf(STANDARD_FORMULARY, id)!;
    expect(dextrosePercent * (GLUCOSE / GLUCOSE_MONOHYDRATE)).toBeCloseTo(glucosePercent, 3);
    // Rounded to 0.1 g/L, as bags and tables print it.
    expect(Math.abs(solution.glucoseGPerL - glucosePercent * 10)).toBeLessThanOrEqual(0.05);
    expect(solution.label).toContain(`${dextrosePercent} % dextrose`);
    expect(solution.label).toContain(`${(solution.glucoseGPerL / 10).toFixed(2)} % glucose`);
  });

  /** Per 100 mL: NaCl 538 mg, Na lactate 448 mg, CaCl2·2H2O 25.7 mg (P, product information) → Na 132.0, Ca 1.75 (C). */
  it('sodium and calcium follow from the declared salts', () => {
    const sodium = 5380 / 58.443 + 4480 / 112.06;
    const calcium = 257 / 147.01;
    for (const solution of STANDARD_FORMULARY.filter((one) => one.buffer === 'lactate' && one.glucoseGPerL > 0)) {
      expect(Math.abs(solution.sodiumMmolPerL - sodium)).toBeLessThan(0.1);
      expect(Math.abs(solution.calciumMmolPerL - calcium)).toBeLessThan(0.005);
    }
  });

  it('icodextrin holds no glucose, and glucose fluids no icodextrin (common practice)', () => {
    for (const { glucoseGPerL, icodextrinGPerL } of STANDARD_FORMULARY) {
      expect(glucoseGPerL === 0).toBe(icodextrinGPerL > 0);
    }
    expect(solutionOf(STANDARD_FORMULARY, 'icodextrin-7.5')?.icodextrinGPerL).toBe(75);
  });
});
