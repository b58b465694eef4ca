/**
 * Atomic weights, g/mol: IUPAC conventional and abridged values (CIAAW), nitrogen with the fourth decimal that the
 * urea nitrogen literature uses.
 */
const ATOMIC_WEIGHT = {
  H: 1.008,
  C: 12.011,
  N: 14.0067,
  O: 15.999,
  Na: 22.98977,
  Mg: 24.305,
  P: 30.97376,
  Cl: 35.45,
  K: 39.0983,
  Ca: 40.078,
} as const;

export type Element = keyof typeof ATOMIC_WEIGHT;

/** A molecule as counts of atoms: `{ C: 6, H: 12, O: 6 }`. */
export type Atoms = Readonly<Partial<Record<Element, number>>>;

/** Molar mass, g/mol, from the atoms: the one source of every factor between mass and amount. */
export const molarMassGPerMol = (atoms: Atoms): number =>
  (Object.entries(atoms) as [Element, number][]).reduce(
    (grams, [element, count]) => grams + ATOMIC_WEIGHT[element] * count,
    0,
  );
