import { describe, expect, it } from 'vitest';
import type { DayInput } from './day.ts';
import { simulateDay } from './day-model.ts';
import { simulateDwell } from './dwell-model.ts';
import { residualAtRest } from './fluid.ts';
import { populationMembrane } from './membrane.ts';

const MIDDLE = { glucoseMmolPerL: 126, sodiumMmolPerL: 132, icodextrinGPerL: 0 };
const ICODEXTRIN = { glucoseMmolPerL: 0, sodiumMmolPerL: 133, icodextrinGPerL: 75 };
const byDay = { bag: MIDDLE, fillMl: 2000, dwellMinutes: 300 };
const day = (change: Partial<DayInput> = {}): DayInput => ({
  residualMl: 200,
  ureaVolumeMl: 36_000,
  bodySurfaceM2: 1.73,
  dwells: [byDay, byDay, byDay, { bag: ICODEXTRIN, fillMl: 2000, dwellMinutes: 540 }],
  ...change,
});

describe('a prescribed day', () => {
  it('is steady: it ends with the residual that the next begins with', () => {
    const { dwells } = simulateDay(day()).value!;
    const last = dwells.at(-1)!;
    const mixedMmolPerL = (2000 * MIDDLE.sodiumMmolPerL + 200 * last.endMmolPerL.sodium) / 2200;
    expect(dwells[0]!.startMmolPerL.sodium).toBeCloseTo(mixedMmolPerL, 4);
    expect(dwells[0]!.startMmolPerL.urea).toBeCloseTo((200 * last.endMmolPerL.urea) / 2200, 4);
  });

  it('adds up over its dwells: what left the bags and the drains is what the sums say', () => {
    const { dwells, ultrafiltrationMl, weeklyKtV, sodiumRemovedMmol, glucoseAbsorbedG } = simulateDay(day()).value!;
    const drained = dwells.reduce((sum, dwell) => sum + dwell.drainMl, 0);
    expect(ultrafiltrationMl.value).toBeCloseTo(drained - 8000, 6);
    const ureaMl = dwells.reduce((sum, dwell) => sum + dwell.drainMl * dwell.dOverP.urea, 0);
    expect(weeklyKtV.value).toBeCloseTo((7 * ureaMl) / 36_000, 9);
    const sodium = dwells.reduce((sum, dwell) => sum + dwell.drainMl * dwell.endMmolPerL.sodium, 0);
    expect(sodiumRemovedMmol.value).toBeCloseTo((sodium - 2000 * (3 * 132 + 133)) / 1000, 9);
    // In a steady day, what the patient absorbs is what the dwells absorb.
    const absorbed = dwells.reduce((sum, dwell) => sum + dwell.glucoseAbsorbedG, 0);
    expect(glucoseAbsorbedG.value).toBeCloseTo(absorbed, 3);
  });

  it('holds most in the middle of a dwell, not at its end', () => {
    const long = { bag: MIDDLE, fillMl: 2500, dwellMinutes: 700 };
    const { dwells, mostInsideMl } = simulateDay(day({ dwells: [long] })).value!;
    expect(mostInsideMl.value).toBeGreaterThan(2700 + 100);
    expect(mostInsideMl.value).toBeGreaterThan(dwells[0]!.drainMl + 200 + 100);
  });

  it('says how sure it is: narrower with a fitted membrane, the estimate always inside', () => {
    const population = simulateDay(day()).value!;
    const fitted = simulateDay(day({ membrane: populationMembrane() })).value!;
    const width = ({ low, high }: { low: number; high: number }) => high - low;
    expect(fitted.weeklyKtV.value).toBe(population.weeklyKtV.value);
    expect(width(fitted.weeklyKtV)).toBeLessThan(width(population.weeklyKtV));
    for (const figure of ['ultrafiltrationMl', 'weeklyKtV', 'glucoseAbsorbedG', 'mostInsideMl'] as const) {
      const { value, low, high } = population[figure];
      expect(low).toBeLessThan(value);
      expect(high).toBeGreaterThan(value);
    }
  });

  it.each([
    [{ dwells: [] }, 'dwells', 'out-of-range'],
    [{ dwells: [byDay, { ...byDay, fillMl: 200 }] }, 'dwells.1.fillMl', 'out-of-range'],
    [{ dwells: Array.from({ length: 5 }, () => byDay) }, 'dwells.minutesTogether', 'out-of-range'],
    [{ ureaVolumeMl: 36 }, 'ureaVolumeMl', 'out-of-range'],
    [{ bodySurfaceM2: Number.NaN }, 'bodySurfaceM2', 'not-a-number'],
    [
      { plasmaMmolPerL: { glucose: 6, creatinine: 0, urea: 20, sodium: 140 } },
      'plasmaMmolPerL.creatinine',
      'out-of-range',
    ],
    [{ membrane: { ...populationMembrane(), areaOverLengthCm: 90_000 } }, 'membrane.areaOverLengthCm', 'out-of-range'],
  ])('is refused with the field and its range: %#', (change, field, code) => {
    const { value, issues } = simulateDay(day(change as Partial<DayInput>));
    expect(value).toBeNull();
    expect(issues[0]).toMatchObject({ field, code });
    expect(issues[0]!.allowed).not.toBe('');
  });
});

describe('a dwell that the model cannot carry', () => {
  const dwell = {
    bag: { ...MIDDLE, glucoseMmolPerL: 75.5 },
    fillMl: 500,
    dwellMinutes: 720,
    residual: residualAtRest(300),
  };
  const fast = { lpSMlPerMinPerMmHg: 0.12, areaOverLengthCm: 60_000, lymphMlPerMin: 1 };

  it('has no drain where the cavity runs down to the residual, and says when', () => {
    const { value, issues } = simulateDwell({ ...dwell, membrane: fast });
    expect(value).toBeNull();
    expect(issues).toHaveLength(1);
    expect(issues[0]).toMatchObject({ code: 'outside-model', field: 'dwellMinutes' });
    expect(issues[0]!.message).toMatch(/^Outside the model: empty at \d+ min$/);
    const ranDryAt = issues[0]!.value as number;
    expect(simulateDwell({ ...dwell, membrane: fast, dwellMinutes: ranDryAt - 10 }).value!.drainMl).toBeGreaterThan(0);
  });

  it.each([
    [{ fillMl: 499 }, 'fillMl', '500 to 3500 mL'],
    [{ fillMl: '2000' }, 'fillMl', '500 to 3500 mL'],
    [{ dwellMinutes: 721 }, 'dwellMinutes', '1 to 720 min'],
    [{ dwellMinutes: -5 }, 'dwellMinutes', '1 to 720 min'],
    [{ dwellMinutes: 961, bag: ICODEXTRIN }, 'dwellMinutes', '1 to 960 min'],
    // 38.6 taken for mmol/L would pass; 3860 mmol/L (a slip of units) does not.
    [{ bag: { ...MIDDLE, glucoseMmolPerL: 3860 } }, 'bag.glucoseMmolPerL', '0 to 260 mmol/L'],
    [{ bag: { ...MIDDLE, sodiumMmolPerL: null } }, 'bag.sodiumMmolPerL', '90 to 150 mmol/L'],
    [{ residual: residualAtRest(-1) }, 'residual.volumeMl', '0 to 1500 mL'],
    [{ residual: residualAtRest(Number.POSITIVE_INFINITY) }, 'residual.volumeMl', '0 to 1500 mL'],
  ])('is refused: %#', (change, field, allowed) => {
    const { value, issues } = simulateDwell({ ...dwell, ...(change as object) });
    expect(value).toBeNull();
    expect(issues[0]).toMatchObject({ field, allowed });
    expect(issues[0]!.message).toContain(field);
    expect(issues[0]!.message).toContain(allowed);
  });
});
