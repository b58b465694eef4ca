import type { Problem } from '../record/problem.ts';
import { type Computed, computed, unlessRefused } from '../units/computed.ts';
import { checkNumber, checkNumbers, ofPart, type Range } from '../units/ranges.ts';
import { SUBSTANCES } from '../units/substances.ts';

/** Anhydrous glucose in a gram of dextrose monohydrate: 0.9091, from the two molar masses. */
export const ANHYDROUS_PER_MONOHYDRATE =
  SUBSTANCES.glucose.molarMassGPerMol / SUBSTANCES.glucoseMonohydrate.molarMassGPerMol;

const STRENGTH: Range = { least: 0, most: 100, unit: 'g/L' };
const VOLUME: Range = { least: 0, most: 60_000, unit: 'mL' };

/** Anhydrous glucose, g/L, of a fluid labelled by dextrose monohydrate, g/L (15 for "1.5 %"). */
export const anhydrousGPerL = (monohydrateGPerL: number): Computed<number> =>
  unlessRefused(checkNumber('monohydrateGPerL', monohydrateGPerL, STRENGTH), () =>
    computed(monohydrateGPerL * ANHYDROUS_PER_MONOHYDRATE),
  );

/** Dextrose monohydrate, g/L, of a fluid whose anhydrous glucose is known, g/L. */
export const monohydrateGPerL = (glucoseGPerL: number): Computed<number> =>
  unlessRefused(checkNumber('glucoseGPerL', glucoseGPerL, STRENGTH), () =>
    computed(glucoseGPerL / ANHYDROUS_PER_MONOHYDRATE),
  );

/** One fill of a day: anhydrous glucose of its fluid, g/L, and what went in, mL. */
export type GlucoseFill = { glucoseGPerL: number; filledMl: number };

/** Problems of a list of fills, each field with its place in the list. */
export const checkFills = (fills: readonly GlucoseFill[]): readonly Problem[] =>
  fills.flatMap((fill, i) => ofPart(`fills[${i}]`, checkNumbers(fill, { glucoseGPerL: STRENGTH, filledMl: VOLUME })));

/** Anhydrous glucose that was put in, g. */
export const glucoseLoadG = (fills: readonly GlucoseFill[]): Computed<number> =>
  unlessRefused(checkFills(fills), () =>
    computed(fills.reduce((grams, { glucoseGPerL, filledMl }) => grams + (glucoseGPerL * filledMl) / 1000, 0)),
  );
