import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { beginLearning } from './begin-learning.ts';
import { type DrainEstimator, foresee, learnDrain, passOver } from './drain-estimator.ts';
import { DEVIATIONS, type DrainKind, modelledDrain } from './drain-model.ts';
import { noiseSdMl } from './drain-noise.ts';
import { expectedDrain } from './expected-drain.ts';
import { bagOf } from './fluid.ts';

const ward = { residualMl: 200 };
const fluid = (glucoseGPerL: number, icodextrinGPerL = 0) =>
  bagOf({ glucoseGPerL, icodextrinGPerL, sodiumMmolPerL: 132 });
const fourHours: DrainKind = { bag: fluid(22.7), fillMl: 2000, dwellMinutes: 240 };
const night: DrainKind = { bag: fluid(13.6), fillMl: 2000, dwellMinutes: 540 };
const icodextrin: DrainKind = { bag: fluid(0, 75), fillMl: 2000, dwellMinutes: 720 };
const modelOf = (kind: DrainKind) => modelledDrain(kind, ward).value!;

const learnAll = (drains: readonly (readonly [DrainKind, number])[], from = beginLearning()): DrainEstimator =>
  drains.reduce((estimator, [kind, ml]) => learnDrain(estimator, modelOf(kind), ml).value!, from);
const times = (count: number, kind: DrainKind, ml: number) => Array.from({ length: count }, () => [kind, ml] as const);
const expected = (estimator: DrainEstimator, kind = fourHours) => expectedDrain(estimator, kind, ward).value!;

describe('the expected drain', () => {
  it('of a new patient is the model’s, with a wide band, from no drains', () => {
    const { expectedMl, lowMl, highMl, from } = expected(beginLearning());
    expect(from).toBe(0);
    expect(expectedMl).toBeCloseTo(modelOf(fourHours).drainMl, 9);
    // At least what the model is known to miss an untested person by.
    expect(highMl - expectedMl).toBeGreaterThan(250);
    expect(expectedMl - lowMl).toBeCloseTo(highMl - expectedMl, 9);
  });

  it('goes to what the patient drains, and its band narrows', () => {
    const learned = learnAll(times(30, fourHours, 2100));
    const { expectedMl, lowMl, highMl, from } = expected(learned);
    expect(from).toBe(30);
    expect(Math.abs(expectedMl - 2100)).toBeLessThan(20);
    expect(highMl - lowMl).toBeLessThan(0.5 * (expected(beginLearning()).highMl - expected(beginLearning()).lowMl));
  });

  it('carries what was learned of short dwells to long ones only in part', () => {
    const learned = learnAll(times(30, fourHours, 2100));
    const width = ({ lowMl, highMl }: { lowMl: number; highMl: number }) => highMl - lowMl;
    expect(width(expected(learned, night))).toBeGreaterThan(1.5 * width(expected(learned)));
    expect(width(expected(learned, icodextrin))).toBeGreaterThan(1.5 * width(expected(learned)));
  });

  it('is not taught by one mis-weighed bag', () => {
    const steady = learnAll(times(20, fourHours, 2300));
    const slipped = learnAll([[fourHours, 1300], ...times(3, fourHours, 2300)], steady);
    expect(Math.abs(expected(slipped).expectedMl - expected(steady).expectedMl)).toBeLessThan(30);
  });

  it('looks for what a low drain left behind in the next drain, and no longer when that one is passed over', () => {
    const steady = learnAll(times(20, fourHours, 2300));
    const low = learnAll([[fourHours, 2200]], steady);
    expect(expected(low).expectedMl).toBeGreaterThan(expected(passOver(low)).expectedMl);
    expect(passOver(low).drains).toBe(low.drains);
  });

  it('starts where the ward’s earlier patients have shown the model to be wrong', () => {
    const earlier = Array.from({ length: 10 }, () => learnAll(times(30, night, 2250)));
    const model = modelOf(night).drainMl;
    const alone = expected(beginLearning(), night).expectedMl;
    const inWard = expected(beginLearning(earlier), night).expectedMl;
    expect(alone).toBeCloseTo(model, 9);
    expect(Math.abs(inWard - 2250)).toBeLessThan(Math.abs(alone - 2250));
    expect(noiseSdMl(beginLearning(earlier))).toBeLessThan(noiseSdMl(beginLearning()));
  });

  it('is never below nothing, whatever the band says', () => {
    const { lowMl, expectedMl } = expected(beginLearning(), { bag: fluid(13.6), fillMl: 500, dwellMinutes: 480 });
    expect(lowMl).toBe(0);
    expect(expectedMl).toBeGreaterThanOrEqual(0);
  });

  it.each([
    [{ dwellMinutes: 721 }, 'dwellMinutes'],
    [{ fillMl: 400 }, 'fillMl'],
    [{ fillMl: Number.NaN }, 'fillMl'],
  ])('is not given beyond what the model can carry: %#', (change, field) => {
    const { value, issues } = expectedDrain(beginLearning(), { ...fourHours, ...change }, ward);
    expect(value).toBeNull();
    expect(issues[0]).toMatchObject({ field });
  });
});

describe('what was learned', () => {
  const drain = fc.tuple(fc.constantFrom(fourHours, night, icodextrin), fc.integer({ min: 0, max: 5_000 }));
  const drains = fc.array(drain, { maxLength: 25 });

  it('is plain JSON, and goes on from there as if never put away', () => {
    fc.assert(
      fc.property(drains, drain, (before, [kind, ml]) => {
        const kept = learnAll(before);
        const read = JSON.parse(JSON.stringify(kept)) as DrainEstimator;
        expect(read).toEqual(kept);
        expect(learnAll([[kind, ml]], read)).toEqual(learnAll([[kind, ml]], kept));
      }),
      { numRuns: 30 },
    );
  });

  it('keeps a covariance: symmetric, and no combination of deviations surer than sure', () => {
    fc.assert(
      fc.property(drains, fc.array(fc.integer({ min: -5, max: 5 }), { minLength: 8, maxLength: 8 }), (given, x) => {
        const { covariance } = learnAll(given);
        const scale = Math.max(...covariance.map((row, i) => row[i]!));
        const quadratic = covariance.reduce(
          (sum, row, i) => sum + row.reduce((inner, value, j) => inner + value * x[i]! * x[j]!, 0),
          0,
        );
        expect(quadratic).toBeGreaterThanOrEqual(-1e-9 * scale);
        for (const [i, row] of covariance.entries()) {
          for (const [j, value] of row.entries())
            expect(Math.abs(value - covariance[j]![i]!)).toBeLessThan(1e-9 * scale);
        }
      }),
      { numRuns: 30 },
    );
  });

  it('makes the model’s regressors one for each deviation', () => {
    for (const kind of [fourHours, night, icodextrin]) expect(modelOf(kind).regressors).toHaveLength(DEVIATIONS.length);
  });

  it('has a finite band whatever was drained', () => {
    fc.assert(
      fc.property(drains, (given) => {
        const { sdMl, drainMl } = foresee(learnAll(given), modelOf(fourHours));
        expect(sdMl).toBeGreaterThan(0);
        expect(Number.isFinite(sdMl + drainMl)).toBe(true);
      }),
      { numRuns: 30 },
    );
  });

  it.each([-1, 6_001, Number.NaN, null, '2300'])('is not changed by %j: refused with the range', (drained) => {
    const { value, issues } = learnDrain(beginLearning(), modelOf(fourHours), drained as number);
    expect(value).toBeNull();
    expect(issues[0]).toMatchObject({ field: 'drainedMl', allowed: '0 to 6000 mL' });
  });
});
