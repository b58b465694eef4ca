import type { Problem } from '../record/problem.ts';
import { type Computed, computed, refused, unlessRefused } from '../units/computed.ts';
import { checkNumber, checkNumbers } from '../units/ranges.ts';
import { ANHYDROUS_PER_MONOHYDRATE, checkFills, type GlucoseFill, glucoseLoadG } from './composition-glucose.ts';

/**
 * Share of the glucose that is absorbed, by the dietetic estimate: 60 % in long dwells, 40 % in short cycles.
 * Source: Manual of Clinical Nutrition Management, quoting McCann.
 */
const DIETETIC_SHARE = { longDwells: 0.6, shortCycles: 0.4 } as const;

/** Glucose absorbed by the dietetic estimate, g anhydrous. */
export const absorbedByDieteticShareG = (
  fills: readonly GlucoseFill[],
  dwells: keyof typeof DIETETIC_SHARE,
): Computed<number> => {
  const load = glucoseLoadG(fills);
  return load.value === null ? load : computed(load.value * DIETETIC_SHARE[dwells]);
};

/**
 * Glucose absorbed from the patient's own membrane test: (1 − D/D0) · load, g anhydrous (from memory). Holds for
 * dwells about as long as the test.
 * @param ddGlucose D/D0 of the test at 4 h, 0 to 1
 */
export const absorbedByTestG = (fills: readonly GlucoseFill[], ddGlucose: number): Computed<number> => {
  const load = glucoseLoadG(fills);
  if (load.value === null) return load;
  return unlessRefused(checkNumber('ddGlucose', ddGlucose, { least: 0, most: 1, unit: '' }), () =>
    computed(load.value * (1 - ddGlucose)),
  );
};

/** Glucose absorbed as measured: what went in less what came out, g anhydrous. */
export const absorbedByMeasureG = (
  fills: readonly GlucoseFill[],
  drained: { drainedMl: number; glucoseGPerL: number },
): Computed<number> => {
  const load = glucoseLoadG(fills);
  if (load.value === null) return load;
  const problems = checkNumbers(drained, {
    drainedMl: { least: 0, most: 60_000, unit: 'mL' },
    glucoseGPerL: { least: 0, most: 100, unit: 'g/L' },
  });
  return unlessRefused(problems, () => {
    const absorbedG = load.value - (drained.drainedMl * drained.glucoseGPerL) / 1000;
    return absorbedG < 0 ? refused(moreOutThanIn(absorbedG)) : computed(absorbedG);
  });
};

/** The mean strengths that Grodstein's patients had, g/dL of monohydrate; at all 4.25 % it is outside its data. */
const GRODSTEIN = { least: 1.5, belowGPerDl: 4.25 } as const;

/**
 * Glucose absorbed in a day of four or so long dwells: (11.3·x − 10.9) · litres, x the mean dextrose monohydrate in
 * g/dL (from memory: Grodstein et al., Kidney Int 1981;19:564).
 * @returns g of dextrose monohydrate a day, with an issue outside the range it was fitted to; or the problem
 */
export const absorbedByGrodsteinMonohydrateG = (fills: readonly GlucoseFill[]): Computed<number> =>
  unlessRefused(checkFills(fills), () => {
    const litres = fills.reduce((sum, fill) => sum + fill.filledMl, 0) / 1000;
    const load = glucoseLoadG(fills).value!;
    if (litres === 0) return refused(nothingFilled);
    const meanGPerDl = load / ANHYDROUS_PER_MONOHYDRATE / litres / 10;
    const grams = (11.3 * meanGPerDl - 10.9) * litres;
    const rounded = Math.round(meanGPerDl * 100) / 100;
    const outside = rounded < GRODSTEIN.least || rounded >= GRODSTEIN.belowGPerDl;
    return grams < 0
      ? refused(outsideGrodstein(meanGPerDl))
      : computed(grams, outside ? [outsideGrodstein(meanGPerDl)] : []);
  });

const nothingFilled: Problem = {
  code: 'missing',
  field: 'fills',
  value: 0,
  allowed: 'more than 0 mL',
  message: 'Nothing was filled: there is no mean strength',
};

const outsideGrodstein = (meanGPerDl: number): Problem => ({
  code: 'outside-formula',
  field: 'fills',
  value: meanGPerDl,
  allowed: `a mean of ${GRODSTEIN.least} to under ${GRODSTEIN.belowGPerDl} g/dL of dextrose monohydrate`,
  message: `A mean strength of ${meanGPerDl.toFixed(2)} g/dL lies outside what the formula was fitted to`,
});

const moreOutThanIn = (absorbedG: number): Problem => ({
  code: 'more-out-than-in',
  field: 'drained',
  value: absorbedG,
  allowed: '0 g or more absorbed',
  message: 'More glucose came out than went in: look at volumes, sample and units again',
});
