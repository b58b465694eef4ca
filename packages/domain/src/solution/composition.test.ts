import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compositionOf, STANDARD_LACTATE_SALTS } from './composition.ts';
import { absorbedByGrodsteinMonohydrateG, absorbedByTestG } from './composition-absorption.ts';
import { energyKcal } from './composition-energy.ts';
import { anhydrousGPerL, glucoseLoadG, monohydrateGPerL } from './composition-glucose.ts';

const strength = fc.double({ min: 0, max: 60, noNaN: true });

describe('compositionOf', () => {
  it('is electrically neutral whatever the recipe', () => {
    fc.assert(
      fc.property(strength, strength, strength, strength, strength, strength, (a, b, c, d, e, f) => {
        const { sodium, calcium, magnesium, chloride, lactate, bicarbonate } = compositionOf({
          glucoseMonohydrate: a,
          sodiumChloride: b,
          sodiumLactate: c,
          sodiumBicarbonate: d,
          calciumChlorideDihydrate: e,
          magnesiumChlorideHexahydrate: f,
        }).value!;
        expect(sodium + 2 * calcium + 2 * magnesium).toBeCloseTo(chloride + lactate + bicarbonate, 8);
      }),
    );
  });

  it('names the salt that is missing', () => {
    const recipe = { ...STANDARD_LACTATE_SALTS, glucoseMonohydrate: Number.NaN };
    expect(compositionOf(recipe).issues).toMatchObject([{ code: 'not-a-number', field: 'glucoseMonohydrate' }]);
  });
});

describe('glucose', () => {
  it('goes from monohydrate to anhydrous and back', () => {
    fc.assert(
      fc.property(strength, (g) => {
        expect(monohydrateGPerL(anhydrousGPerL(g).value!).value!).toBeCloseTo(g, 9);
      }),
    );
  });

  it('carries the same energy in either form', () => {
    expect(energyKcal(anhydrousGPerL(25).value!, 'anhydrous').value!).toBeCloseTo(
      energyKcal(25, 'monohydrate').value!,
      9,
    );
  });

  it('adds its load over fills', () => {
    const one = { glucoseGPerL: 13.6, filledMl: 2000 };
    const two = { glucoseGPerL: 38.6, filledMl: 1500 };
    expect(glucoseLoadG([one, two]).value!).toBeCloseTo(27.2 + 57.9, 9);
    expect(glucoseLoadG([]).value).toBe(0);
  });

  it('names the fill whose value is bad', () => {
    const fills = [
      { glucoseGPerL: 13.6, filledMl: 2000 },
      { glucoseGPerL: 386, filledMl: 2000 },
    ];
    expect(absorbedByTestG(fills, 0.4).issues).toMatchObject([
      { field: 'fills[1].glucoseGPerL', value: 386, allowed: '0 to 100 g/L' },
    ]);
    expect(absorbedByTestG([fills[0]!], 1.2).issues).toMatchObject([{ field: 'ddGlucose', value: 1.2 }]);
  });

  it('has no Grodstein figure for a day without a fill', () => {
    expect(absorbedByGrodsteinMonohydrateG([]).issues).toMatchObject([{ code: 'missing', field: 'fills' }]);
  });
});
