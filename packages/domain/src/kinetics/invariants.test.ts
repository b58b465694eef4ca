import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { simulateDwell } from './dwell-model.ts';
import { AT, FLOW, FLOW_SIZE, ratesUnder, STATE_SIZE, writeFlows } from './equations.ts';
import { residualAtRest } from './fluid.ts';
import { rungeKuttaStep, workspace } from './integrate.ts';
import { populationMembrane } from './membrane.ts';
import { mixtureOf } from './run-dwell.ts';
import { soluteFlow } from './solute-flow.ts';
import { surroundingsOf } from './surroundings.ts';

const glucose = (glucoseMmolPerL: number) => ({ glucoseMmolPerL, sodiumMmolPerL: 132, icodextrinGPerL: 0 });
const dwell = fc.record({
  glucoseMmolPerL: fc.double({ min: 70, max: 220, noNaN: true }),
  fillMl: fc.integer({ min: 1200, max: 3000 }),
  areaOverLengthCm: fc.double({ min: 8_000, max: 50_000, noNaN: true }),
});
type Given = { glucoseMmolPerL: number; fillMl: number; areaOverLengthCm: number };

const run = ({ glucoseMmolPerL, fillMl, areaOverLengthCm }: Given, dwellMinutes = 240) =>
  simulateDwell({
    bag: glucose(glucoseMmolPerL),
    fillMl,
    dwellMinutes,
    residual: residualAtRest(300),
    membrane: { ...populationMembrane(), areaOverLengthCm },
  }).value!;

describe('a dwell', () => {
  it('keeps account of water and solutes: what flowed in less what lymph took is what changed, to 1e-9', () => {
    fc.assert(
      fc.property(dwell, ({ glucoseMmolPerL, fillMl, areaOverLengthCm }) => {
        const membrane = { ...populationMembrane(), areaOverLengthCm };
        const around = surroundingsOf({ membrane });
        const mixture = mixtureOf({ bag: glucose(glucoseMmolPerL), fillMl, residual: residualAtRest(300) });
        const modelRates = ratesUnder(around);
        const flows = new Float64Array(FLOW_SIZE);
        // The flows themselves are carried as further states beside the model's.
        const withFlows = (minute: number, state: Float64Array, rate: Float64Array): void => {
          modelRates(minute, state.subarray(0, STATE_SIZE), rate.subarray(0, STATE_SIZE));
          writeFlows(minute, state.subarray(0, STATE_SIZE), around, flows);
          rate.set(flows, STATE_SIZE);
        };
        const state = new Float64Array(STATE_SIZE + FLOW_SIZE);
        state.set(mixture);
        const work = workspace(state.length);
        for (let minute = 0; minute < 240; minute += 5) rungeKuttaStep(withFlows, minute, 5, state, work);
        const total = (flow: number): number => state[STATE_SIZE + flow]!;
        const water = total(FLOW.water) + total(FLOW.small) + total(FLOW.large) - total(FLOW.lymph);
        expect(Math.abs(state[AT.volumeMl]! - mixture[AT.volumeMl]! - water)).toBeLessThan(1e-9);
        for (let i = 0; i < 4; i++) {
          const micromol = total(FLOW.bySmall + i) + total(FLOW.byLarge + i) - total(FLOW.byLymph + i);
          const changed = state[AT.glucose + i]! - mixture[AT.glucose + i]!;
          expect(Math.abs(changed - micromol / 1000)).toBeLessThan(1e-9);
        }
        expect(total(FLOW.lymph)).toBeCloseTo(72, 9);
      }),
      { numRuns: 30 },
    );
  });

  it('brings more when the fluid is stronger', () => {
    fc.assert(
      fc.property(dwell, (given) => {
        const stronger = { ...given, glucoseMmolPerL: given.glucoseMmolPerL + 5 };
        expect(run(stronger).ultrafiltrationMl).toBeGreaterThan(run(given).ultrafiltrationMl);
      }),
    );
  });

  it('with a larger area has a higher D/P at 4 h, less glucose left, and brings less at 2.27 %', () => {
    fc.assert(
      fc.property(dwell, (given) => {
        const larger = { ...given, areaOverLengthCm: given.areaOverLengthCm * 1.1 };
        const [one, other] = [run(given), run(larger)];
        expect(other.dOverP.creatinine).toBeGreaterThan(one.dOverP.creatinine);
        expect(other.endMmolPerL.glucose).toBeLessThan(one.endMmolPerL.glucose);
      }),
    );
    const at = (areaOverLengthCm: number) => run({ glucoseMmolPerL: 126, fillMl: 2000, areaOverLengthCm });
    for (let area = 12_000; area < 50_000; area += 2_000) {
      expect(at(area + 2_000).ultrafiltrationMl).toBeLessThan(at(area).ultrafiltrationMl);
    }
  });

  it('never shows a D/P urea above 1.01, though it may pass 1', () => {
    fc.assert(
      fc.property(dwell, fc.integer({ min: 30, max: 700 }), (given, minutes) => {
        const end = simulateDwell({
          bag: glucose(given.glucoseMmolPerL),
          fillMl: given.fillMl,
          dwellMinutes: minutes,
          residual: residualAtRest(300),
        });
        if (end.value !== null) expect(end.value.dOverP.urea).toBeLessThanOrEqual(1.01);
      }),
    );
  });

  it('holds at its fullest no less than at either end, and more in mid-dwell when it goes on past its peak', () => {
    fc.assert(
      fc.property(dwell, (given) => {
        const { mostInsideMl, drainMl } = run(given);
        expect(mostInsideMl).toBeGreaterThanOrEqual(Math.max(given.fillMl, drainMl) + 300);
      }),
    );
    const long = run({ glucoseMmolPerL: 126, fillMl: 2000, areaOverLengthCm: 25_000 }, 600);
    expect(long.mostInsideMl).toBeGreaterThan(Math.max(2000, long.drainMl) + 300 + 50);
  });
});

describe('the flow of a solute through a pore', () => {
  const concentration = fc.double({ min: 0, max: 250, noNaN: true });

  it('is diffusion plus the mean carried along where water hardly moves', () => {
    expect(soluteFlow(0, 10, 6, 100)).toBe(-940);
    expect(soluteFlow(1e-7, 10, 6, 100)).toBeCloseTo(-940 + 1e-7 * 53, 12);
    expect(soluteFlow(0, 0, 6, 100)).toBe(0);
  });

  it('goes into its limits: all plasma, or all cavity, where nothing diffuses', () => {
    expect(soluteFlow(2, 0, 6, 100)).toBe(12);
    expect(soluteFlow(-2, 0, 6, 100)).toBe(-200);
    expect(soluteFlow(2, 1e-4, 6, 100)).toBeCloseTo(12, 12);
    expect(soluteFlow(-2, 1e-4, 6, 100)).toBeCloseTo(-200, 12);
  });

  it('is continuous where the series takes over', () => {
    fc.assert(
      fc.property(concentration, concentration, (plasma, cavity) => {
        const [inside, outside] = [soluteFlow(0.999e-5, 10, plasma, cavity), soluteFlow(1.001e-5, 10, plasma, cavity)];
        expect(Math.abs(inside - outside)).toBeLessThan(1e-5);
      }),
    );
  });

  it('lies between both limits plus diffusion', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 5, noNaN: true }), concentration, concentration, (q, plasma, cavity) => {
        const withWater = soluteFlow(q, 1, plasma, cavity);
        const still = soluteFlow(0, 1, plasma, cavity);
        expect(withWater).toBeLessThanOrEqual(still + q * Math.max(plasma, cavity) + 1e-9);
        expect(withWater).toBeGreaterThanOrEqual(still + q * Math.min(plasma, cavity) - 1e-9);
      }),
    );
  });
});
