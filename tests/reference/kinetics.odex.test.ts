import { describe, expect, it } from 'vitest';
import { AT, ratesUnder, STATE_SIZE } from '../../packages/domain/src/kinetics/equations.ts';
import { residualAtRest } from '../../packages/domain/src/kinetics/fluid.ts';
import { populationMembrane } from '../../packages/domain/src/kinetics/membrane.ts';
import { mixtureOf, runDwell } from '../../packages/domain/src/kinetics/run-dwell.ts';
import { surroundingsOf } from '../../packages/domain/src/kinetics/surroundings.ts';
import { adaptiveEnd } from './kinetics-odex.ts';

const FLUIDS = {
  'glucose 1.36 %': { glucoseMmolPerL: 75.5, sodiumMmolPerL: 132, icodextrinGPerL: 0 },
  'glucose 2.27 %': { glucoseMmolPerL: 126, sodiumMmolPerL: 132, icodextrinGPerL: 0 },
  'glucose 3.86 %': { glucoseMmolPerL: 214.3, sodiumMmolPerL: 132, icodextrinGPerL: 0 },
  icodextrin: { glucoseMmolPerL: 0, sodiumMmolPerL: 133, icodextrinGPerL: 75 },
} as const;

describe('our steps against an adaptive solver (odex: Gragg, Bulirsch and Stoer; tolerance 1e-12)', () => {
  for (const [name, bag] of Object.entries(FLUIDS)) {
    it.each([15_000, 25_000, 35_000])(
      `${name}, 4 h, A0/dx %i cm: every quantity within 1e-6 of itself, volume within 1e-5 mL`,
      (area) => {
        const around = surroundingsOf({ membrane: { ...populationMembrane(), areaOverLengthCm: area } });
        const dwelling = { bag, fillMl: 2000, dwellMinutes: 240, residual: residualAtRest(300) };
        const ours = runDwell(dwelling, around).end;
        const theirs = adaptiveEnd(ratesUnder(around), mixtureOf(dwelling), 240);
        for (let i = 0; i < STATE_SIZE; i++) {
          expect(Math.abs(ours[i]! - theirs[i]!)).toBeLessThanOrEqual(1e-6 * Math.max(1, Math.abs(theirs[i]!)));
        }
        expect(Math.abs(ours[AT.volumeMl]! - theirs[AT.volumeMl]!)).toBeLessThan(1e-5);
        // In 1 min steps the volume is the solver's to 1e-7 mL.
        expect(Math.abs(runDwell(dwelling, around, 1).end[AT.volumeMl]! - theirs[AT.volumeMl]!)).toBeLessThan(1e-7);
      },
    );
  }

  it('the fastest membrane with the smallest fill is the worst, and still within 0.01 mL', () => {
    const around = surroundingsOf({
      membrane: { lpSMlPerMinPerMmHg: 0.133, areaOverLengthCm: 65_000, lymphMlPerMin: 0.3 },
    });
    const dwelling = { bag: FLUIDS['glucose 3.86 %'], fillMl: 500, dwellMinutes: 240, residual: residualAtRest(200) };
    const theirs = adaptiveEnd(ratesUnder(around), mixtureOf(dwelling), 240);
    expect(Math.abs(runDwell(dwelling, around).end[AT.volumeMl]! - theirs[AT.volumeMl]!)).toBeLessThan(0.01);
    expect(Math.abs(runDwell(dwelling, around, 10).end[AT.volumeMl]! - theirs[AT.volumeMl]!)).toBeLessThan(0.1);
  });
});
