import { type Computed, computed, unlessRefused } from '../units/computed.ts';
import { checkNumbers, type Range } from '../units/ranges.ts';
import { SUBSTANCES, type SubstanceName } from '../units/substances.ts';

/** What a maker weighs into a litre of fluid, g/L, by the salt that is weighed. */
export type Recipe = {
  /** Dextrose as monohydrate, as American labels have it, g/L. */
  glucoseMonohydrate: number;
  sodiumChloride: number;
  sodiumLactate: number;
  sodiumBicarbonate: number;
  calciumChlorideDihydrate: number;
  magnesiumChlorideHexahydrate: number;
};

/** mmol/L of each solute, and their sum as the ideal osmolarity that labels print, mOsm/L. */
export type Composition = {
  sodium: number;
  calcium: number;
  magnesium: number;
  chloride: number;
  lactate: number;
  bicarbonate: number;
  glucose: number;
  osmolarity: number;
};

type Ion = Exclude<keyof Composition, 'osmolarity'>;

/** How many of each ion a formula unit of the salt gives. */
const IONS: Record<keyof Recipe, Partial<Record<Ion, number>>> = {
  glucoseMonohydrate: { glucose: 1 },
  sodiumChloride: { sodium: 1, chloride: 1 },
  sodiumLactate: { sodium: 1, lactate: 1 },
  sodiumBicarbonate: { sodium: 1, bicarbonate: 1 },
  calciumChlorideDihydrate: { calcium: 1, chloride: 2 },
  magnesiumChlorideHexahydrate: { magnesium: 1, chloride: 2 },
};

/** The salts of the standard lactate fluid, g/L, without glucose. Source: product information of such fluids. */
export const STANDARD_LACTATE_SALTS: Omit<Recipe, 'glucoseMonohydrate'> = {
  sodiumChloride: 5.38,
  sodiumLactate: 4.48,
  sodiumBicarbonate: 0,
  calciumChlorideDihydrate: 0.257,
  magnesiumChlorideHexahydrate: 0.0508,
};

const GRAMS: Range = { least: 0, most: 60, unit: 'g/L' };
const RANGES: Record<keyof Recipe, Range> = {
  glucoseMonohydrate: GRAMS,
  sodiumChloride: GRAMS,
  sodiumLactate: GRAMS,
  sodiumBicarbonate: GRAMS,
  calciumChlorideDihydrate: GRAMS,
  magnesiumChlorideHexahydrate: GRAMS,
};

/**
 * Composition of a fluid from its recipe, all salts taken as wholly dissociated: mmol/L = g/L ÷ molar mass × ions.
 * The osmolarity is this ideal sum (what labels print), not a measured osmolality.
 * @param recipe each 0 to 60 g/L
 */
export const compositionOf = (recipe: Recipe): Computed<Composition> =>
  unlessRefused(checkNumbers(recipe, RANGES), () => {
    const ions: Record<Ion, number> = {
      sodium: 0,
      calcium: 0,
      magnesium: 0,
      chloride: 0,
      lactate: 0,
      bicarbonate: 0,
      glucose: 0,
    };
    for (const salt of Object.keys(IONS) as (keyof Recipe & SubstanceName)[]) {
      const mmolPerL = (1000 * recipe[salt]) / SUBSTANCES[salt].molarMassGPerMol;
      for (const [ion, count] of Object.entries(IONS[salt]) as [Ion, number][]) ions[ion] += count * mmolPerL;
    }
    const osmolarity = Object.values(ions).reduce((sum, mmolPerL) => sum + mmolPerL, 0);
    return computed({ ...ions, osmolarity });
  });
