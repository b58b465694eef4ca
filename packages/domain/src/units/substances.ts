import { type Atoms, molarMassGPerMol } from './molar-mass.ts';

export type Substance = {
  name: string;
  /** g/mol */
  molarMassGPerMol: number;
  /** Size of the charge of the ion, for equivalents; 0 for molecules without one. */
  charge: number;
};

const substance = (name: string, atoms: Atoms, charge = 0): Substance => ({
  name,
  molarMassGPerMol: molarMassGPerMol(atoms),
  charge,
});

/** What the ward's laboratory and the bags name, by molecular formula. */
export const SUBSTANCES = {
  urea: substance('urea', { C: 1, H: 4, N: 2, O: 1 }),
  /** Blood urea nitrogen counts the two nitrogen atoms of urea alone: mg/dL of it is not mg/dL of urea. */
  ureaNitrogen: substance('urea nitrogen', { N: 2 }),
  creatinine: substance('creatinine', { C: 4, H: 7, N: 3, O: 1 }),
  glucose: substance('glucose, anhydrous', { C: 6, H: 12, O: 6 }),
  glucoseMonohydrate: substance('dextrose, monohydrate', { C: 6, H: 14, O: 7 }),
  sodium: substance('sodium', { Na: 1 }, 1),
  potassium: substance('potassium', { K: 1 }, 1),
  calcium: substance('calcium', { Ca: 1 }, 2),
  magnesium: substance('magnesium', { Mg: 1 }, 2),
  chloride: substance('chloride', { Cl: 1 }, 1),
  phosphate: substance('phosphate, as phosphorus', { P: 1 }),
  lactate: substance('lactate', { C: 3, H: 5, O: 3 }, 1),
  bicarbonate: substance('bicarbonate', { C: 1, H: 1, O: 3 }, 1),
  sodiumChloride: substance('sodium chloride', { Na: 1, Cl: 1 }),
  sodiumLactate: substance('sodium lactate', { Na: 1, C: 3, H: 5, O: 3 }),
  sodiumBicarbonate: substance('sodium bicarbonate', { Na: 1, C: 1, H: 1, O: 3 }),
  calciumChlorideDihydrate: substance('calcium chloride dihydrate', { Ca: 1, Cl: 2, H: 4, O: 2 }),
  magnesiumChlorideHexahydrate: substance('magnesium chloride hexahydrate', { Mg: 1, Cl: 2, H: 12, O: 6 }),
} as const satisfies Record<string, Substance>;

export type SubstanceName = keyof typeof SUBSTANCES;
