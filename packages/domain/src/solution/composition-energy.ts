import { type Computed, computed, unlessRefused } from '../units/computed.ts';
import { checkNumber } from '../units/ranges.ts';
import { ANHYDROUS_PER_MONOHYDRATE } from './composition-glucose.ts';

/**
 * Energy of dextrose, kcal per gram of the **monohydrate** (Manual of Clinical Nutrition Management). A gram of
 * anhydrous glucose therefore carries 3.74: derived, so that the two are never mixed.
 */
const KCAL_PER_G_MONOHYDRATE = 3.4;
const KCAL_PER_G_ANHYDROUS = KCAL_PER_G_MONOHYDRATE / ANHYDROUS_PER_MONOHYDRATE;

/** Energy of absorbed glucose, kcal; grams of the form that is named, 0 to 1,000 g. */
export const energyKcal = (absorbedG: number, form: 'anhydrous' | 'monohydrate'): Computed<number> =>
  unlessRefused(checkNumber('absorbedG', absorbedG, { least: 0, most: 1_000, unit: 'g' }), () =>
    computed(absorbedG * (form === 'anhydrous' ? KCAL_PER_G_ANHYDROUS : KCAL_PER_G_MONOHYDRATE)),
  );
