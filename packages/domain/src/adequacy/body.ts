import type { Problem } from '../record/problem.ts';
import { checkNumber, type Range } from '../units/ranges.ts';

/** A person's size, as the formulas of body water and body surface need it. */
export type Body = {
  /** The sex that the formula was fitted to. */
  sex: 'female' | 'male';
  /** Completed or decimal years; null = not known (only some formulas need it). */
  ageYears: number | null;
  heightCm: number;
  /** Weight with an empty cavity, kg: fluid inside is neither body water nor body surface. */
  weightKg: number;
};

const HEIGHT: Range = { least: 30, most: 250, unit: 'cm' };
const WEIGHT: Range = { least: 1, most: 350, unit: 'kg' };
const AGE: Range = { least: 0, most: 130, unit: 'years' };

/** Problems of a body's size; [] = may be used. Age is checked only where it is given. */
export const checkBody = (body: Body): readonly Problem[] => [
  ...checkNumber('heightCm', body.heightCm, HEIGHT),
  ...checkNumber('weightKg', body.weightKg, WEIGHT),
  ...(body.ageYears === null ? [] : checkNumber('ageYears', body.ageYears, AGE)),
];
