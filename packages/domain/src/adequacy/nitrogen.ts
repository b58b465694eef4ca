import { type Computed, computed, refused, unlessRefused } from '../units/computed.ts';
import { checkNumber } from '../units/ranges.ts';
import { SUBSTANCES } from '../units/substances.ts';
import { checkCollection } from './checks.ts';
import { type Collection, HOURS_PER_DAY } from './clearance.ts';

/**
 * Urea nitrogen appearance in steady state, g/day: what leaves by dialysate and urine, each mmol of urea carrying two
 * nitrogen atoms (0.0280134 g).
 * @param collections dialysate and, where there is any, urine
 */
export const ureaNitrogenAppearanceGPerDay = (collections: {
  dialysate: Collection;
  urine: Collection | null;
}): Computed<number> => {
  const { dialysate, urine } = collections;
  return unlessRefused(
    [...checkCollection('dialysate', dialysate), ...(urine ? checkCollection('urine', urine) : [])],
    () => computed(nitrogenGPerDay(dialysate) + (urine ? nitrogenGPerDay(urine) : 0)),
  );
};

const nitrogenGPerDay = ({ sampledMl, hours, ureaMmolPerL }: Collection): number =>
  (((sampledMl / 1000) * ureaMmolPerL * HOURS_PER_DAY) / hours / 1000) * SUBSTANCES.ureaNitrogen.molarMassGPerMol;

export type ProteinFormula = 'randerson' | 'bergstrom' | 'bergstromOtherSet' | 'bergstromWithLoss';

/** Protein equivalent of nitrogen appearance, g/day, from urea nitrogen appearance in g/day (all from memory). */
const PROTEIN: Record<ProteinFormula, (unaGPerDay: number, proteinLossGPerDay: number) => number> = {
  /** Randerson, Chapman & Farrell 1981. */
  randerson: (una) => 10.76 * (0.69 * una + 1.46),
  /** Bergström, Heimbürger & Lindholm, Perit Dial Int 1998;18:467, without measured protein loss. */
  bergstrom: (una) => 20.1 + 7.5 * una,
  /** The set that other papers print under the same name. */
  bergstromOtherSet: (una) => 19 + 7.62 * una,
  /** Bergström's with the measured loss of protein into dialysate and urine. */
  bergstromWithLoss: (una, loss) => 15.1 + 6.95 * una + loss,
};

/** Body water as a share of the weight of a normal body: V/0.58 is the weight to which protein is normalised. */
const WATER_SHARE_OF_NORMAL_WEIGHT = 0.58;

export type ProteinAppearance = {
  gPerDay: number;
  /** g per kg of V/0.58 and day. */
  gPerKgPerDay: number;
};

/**
 * Protein equivalent of total nitrogen appearance. Holds in steady state only: with rising urea the pool of the body
 * fills as well, so no number is given unless a person has said that the patient is steady.
 * @param input.unaGPerDay 0 to 60 g/day; input.bodyWaterL more than 0, to 150 L
 * @param input.proteinLossGPerDay measured, g/day; needed for `bergstromWithLoss`, else null
 */
export const proteinAppearance = (
  formula: ProteinFormula,
  input: { unaGPerDay: number; bodyWaterL: number; proteinLossGPerDay: number | null; steady: boolean | null },
): Computed<ProteinAppearance> => {
  const { unaGPerDay, bodyWaterL, proteinLossGPerDay, steady } = input;
  if (steady !== true) {
    return refused({
      code: 'not-steady',
      field: 'steady',
      value: steady,
      allowed: 'true: a steady state, stated by a person',
      message: 'Protein cannot be told from urea unless the patient is in a steady state',
    });
  }
  return unlessRefused(
    [
      ...checkNumber('unaGPerDay', unaGPerDay, { least: 0, most: 60, unit: 'g/day' }),
      ...checkNumber('bodyWaterL', bodyWaterL, { least: 0, most: 150, unit: 'L', moreThanLeast: true }),
      ...(formula === 'bergstromWithLoss' || proteinLossGPerDay !== null
        ? checkNumber('proteinLossGPerDay', proteinLossGPerDay, { least: 0, most: 100, unit: 'g/day' })
        : []),
    ],
    () => {
      const gPerDay = PROTEIN[formula](unaGPerDay, proteinLossGPerDay ?? 0);
      return computed({ gPerDay, gPerKgPerDay: gPerDay / (bodyWaterL / WATER_SHARE_OF_NORMAL_WEIGHT) });
    },
  );
};
