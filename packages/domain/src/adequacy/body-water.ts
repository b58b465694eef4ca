import type { Problem } from '../record/problem.ts';
import { type Computed, computed, unlessRefused } from '../units/computed.ts';
import { checkNumber, type Range } from '../units/ranges.ts';
import { type Body, checkBody } from './body.ts';

export type BodyWaterFormula = 'watson' | 'humeWeyers' | 'morgenstern';

const ADULT: Range = { least: 18, most: 130, unit: 'years' };
const CHILD: Range = { least: 0, most: 18, unit: 'years' };

/** Body water in litres from centimetres, kilograms and years, with the ages that each formula was made for. */
const FORMULAS: Record<
  BodyWaterFormula,
  { ages: Range; needsAge: boolean; litres: (cm: number, kg: number, years: number) => Record<Body['sex'], number> }
> = {
  /** Watson, Watson & Batt, Am J Clin Nutr 1980;33:27. Many pages misprint 0.09516 as 0.09156. */
  watson: {
    ages: ADULT,
    needsAge: true,
    litres: (cm, kg, years) => ({
      male: 2.447 - 0.09516 * years + 0.1074 * cm + 0.3362 * kg,
      female: -2.097 + 0.1069 * cm + 0.2466 * kg,
    }),
  },
  /** Hume & Weyers, J Clin Pathol 1971;24:234 (from memory). */
  humeWeyers: {
    ages: ADULT,
    needsAge: false,
    litres: (cm, kg) => ({
      male: 0.194786 * cm + 0.296785 * kg - 14.012934,
      female: 0.344547 * cm + 0.183809 * kg - 35.270121,
    }),
  },
  /** Morgenstern et al., children on peritoneal dialysis, J Am Soc Nephrol 2006;17:285 (from memory). */
  morgenstern: {
    ages: CHILD,
    needsAge: false,
    litres: (cm, kg) => ({
      male: 0.1 * (cm * kg) ** 0.68 - 0.37 * kg,
      female: 0.14 * (cm * kg) ** 0.64 - 0.35 * kg,
    }),
  },
};

/**
 * Total body water, the V of Kt/V, in litres.
 * @param body weight with an empty cavity; the age is needed for men by Watson, and is always held against the ages
 * that the formula was made for where it is known
 * @returns litres, or the problems: size out of range, age missing or outside, a size for which the formula gives a
 * share of body weight that no body has
 */
export const bodyWaterL = (formula: BodyWaterFormula, body: Body): Computed<number> => {
  const { ages, needsAge, litres } = FORMULAS[formula];
  const ageWanted = (needsAge && body.sex === 'male') || body.ageYears !== null;
  return unlessRefused([...checkBody(body), ...(ageWanted ? checkNumber('ageYears', body.ageYears, ages) : [])], () => {
    const value = litres(body.heightCm, body.weightKg, body.ageYears ?? Number.NaN)[body.sex];
    return unlessRefused(checkShare(value, body), () => computed(value));
  });
};

/** Body water between a quarter and nine tenths of the weight; outside it the formula was fed a body it never saw. */
const checkShare = (litres: number, { weightKg }: Body): readonly Problem[] =>
  checkNumber('bodyWaterL', litres, { least: 0.25 * weightKg, most: 0.9 * weightKg, unit: 'L' });
