import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitAreaOverLength } from './fit-area.ts';
import { fitMembrane } from './fit-membrane.ts';
import { residualAtRest } from './fluid.ts';
import { populationMembrane } from './membrane.ts';
import { type FittedTest, modelledTest } from './membrane-test.ts';
import { rootBetween } from './root.ts';

const strong = (change: Partial<FittedTest> = {}): FittedTest => ({
  bag: { glucoseMmolPerL: 214.3, sodiumMmolPerL: 132, icodextrinGPerL: 0 },
  fillMl: 2000,
  dwellMinutes: 240,
  residual: residualAtRest(300),
  dOverPCreatinine: 0.7,
  ...change,
});

describe('a fitted membrane', () => {
  it('is the one that the test was run with', () => {
    const within = { areaOverLengthCm: fc.double({ min: 8_000, max: 45_000, noNaN: true }) };
    const lpS = fc.double({ min: 0.045, max: 0.12, noNaN: true });
    fc.assert(
      fc.property(fc.record({ ...within, lpSMlPerMinPerMmHg: lpS }), (truth) => {
        const membrane = { ...populationMembrane(), ...truth };
        const { dOverPCreatinine, drainMl } = modelledTest(strong(), membrane);
        const fit = fitMembrane(strong({ dOverPCreatinine }), { drainedMl: drainMl, sdMl: 0 }).value!.membrane;
        expect(fit.lpSMlPerMinPerMmHg / truth.lpSMlPerMinPerMmHg).toBeCloseTo(1, 3);
        expect(fit.areaOverLengthCm / truth.areaOverLengthCm).toBeCloseTo(1, 3);
        const area = fitAreaOverLength(strong({ dOverPCreatinine }), membrane).value!;
        expect(area / truth.areaOverLengthCm).toBeCloseTo(1, 5);
      }),
      { numRuns: 25 },
    );
  });

  it('is drawn towards the population the less its drain is sure, and held within its bounds', () => {
    const drained = (sdMl: number, drainedMl = 3_150) => fitMembrane(strong(), { drainedMl, sdMl }).value!;
    const lpS = [0, 50, 100, 200].map((sdMl) => drained(sdMl).membrane.lpSMlPerMinPerMmHg);
    expect(lpS).toEqual([...lpS].sort((a, b) => b - a));
    expect(lpS.at(-1)).toBeGreaterThan(populationMembrane().lpSMlPerMinPerMmHg);
    expect(drained(0).weight).toBe(1);
    expect(drained(0, 3_700).membrane.lpSMlPerMinPerMmHg).toBe(0.133);
  });

  it.each([
    [{ dOverPCreatinine: 0.99 }, 'dOverPCreatinine', '0.354 to 0.954'],
    [{ dOverPCreatinine: Number.NaN }, 'dOverPCreatinine', '0.354 to 0.954'],
    [{ dwellMinutes: 480 }, 'dwellMinutes', '180 to 300 min'],
    [{ fillMl: 0 }, 'fillMl', '500 to 3500 mL'],
  ])('is refused outside its reach, never clamped: %#', (change, field, allowed) => {
    const { value, issues } = fitAreaOverLength(strong(change));
    expect(value).toBeNull();
    expect(issues[0]).toMatchObject({ field, allowed });
  });

  it('needs a strong fluid and a drain that can be', () => {
    const weak = strong({ bag: { glucoseMmolPerL: 126, sodiumMmolPerL: 132, icodextrinGPerL: 0 } });
    expect(fitMembrane(weak, { drainedMl: 2349, sdMl: 50 }).issues[0]).toMatchObject({ field: 'bag.glucoseMmolPerL' });
    expect(fitMembrane(strong(), { drainedMl: 5_900, sdMl: 50 }).issues[0]).toMatchObject({
      code: 'out-of-reach',
      field: 'drainedMl',
    });
    expect(fitMembrane(strong(), { drainedMl: 2_800, sdMl: -1 }).issues[0]).toMatchObject({ field: 'sdMl' });
  });
});

it('a root is found to what was asked for, within its bracket', () => {
  fc.assert(
    fc.property(
      fc.double({ min: -3, max: 3, noNaN: true }),
      fc.double({ min: 0.1, max: 5, noNaN: true }),
      (root, k) => {
        const f = (x: number) => Math.expm1(k * (x - root)) + (x - root) ** 3;
        expect(Math.abs(rootBetween(f, -4, 4, f(-4), f(4), 1e-9) - root)).toBeLessThanOrEqual(1e-8);
      },
    ),
  );
});
