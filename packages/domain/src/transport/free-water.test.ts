import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { freeWater } from './free-water.ts';
import { sodiumRemovedMmol } from './sodium.ts';

const sodium = fc.double({ min: 100, max: 150, noNaN: true });
const volume = fc.double({ min: 500, max: 5_000, noNaN: true });

describe('freeWater', () => {
  it('splits the ultrafiltration into two parts that add up to it', () => {
    fc.assert(
      fc.property(volume, sodium, volume, sodium, sodium, (infusedMl, naIn, drainedMl, naOut, plasma) => {
        const balance = { infusedMl, infusedSodiumMmolPerL: naIn, drainedMl, drainedSodiumMmolPerL: naOut };
        const { smallPoreMl, freeWaterMl, ultrafiltrationMl } = freeWater(balance, plasma).value!;
        expect(smallPoreMl + freeWaterMl).toBeCloseTo(ultrafiltrationMl, 6);
        expect(ultrafiltrationMl).toBeCloseTo(drainedMl - infusedMl, 9);
      }),
    );
  });

  it('says when a part comes out negative', () => {
    const gained = { infusedMl: 2000, infusedSodiumMmolPerL: 134, drainedMl: 2050, drainedSodiumMmolPerL: 120 };
    expect(freeWater(gained, 138).issues).toMatchObject([{ code: 'negative-part', field: 'smallPoreMl' }]);
  });

  it('names each bad value', () => {
    const result = freeWater(
      { infusedMl: -1, infusedSodiumMmolPerL: 1320, drainedMl: Number.NaN, drainedSodiumMmolPerL: 130 },
      138,
    );
    expect(result.issues.map((issue) => issue.field)).toEqual(['infusedMl', 'infusedSodiumMmolPerL', 'drainedMl']);
  });
});

describe('sodiumRemovedMmol', () => {
  it('adds over dwells', () => {
    fc.assert(
      fc.property(volume, volume, volume, volume, sodium, (inOne, outOne, inTwo, outTwo, naOut) => {
        const dwell = (infusedMl: number, drainedMl: number) =>
          sodiumRemovedMmol({ infusedMl, infusedSodiumMmolPerL: 132, drainedMl, drainedSodiumMmolPerL: naOut }).value!;
        expect(dwell(inOne, outOne) + dwell(inTwo, outTwo)).toBeCloseTo(dwell(inOne + inTwo, outOne + outTwo), 6);
      }),
    );
  });
});
