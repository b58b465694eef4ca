/** How far a value can be relied on: seen in the cited text, from memory of it, tuned to published means, or chosen. */
export type Mark = 'published' | 'from memory' | 'tuned' | 'chosen' | 'arithmetic';

export type Parameter = { value: number; unit: string; mark: Mark; source: string };

export const SOLUTES = ['glucose', 'creatinine', 'urea', 'sodium'] as const;
export type Solute = (typeof SOLUTES)[number];
export type PerSolute = Readonly<Record<Solute, number>>;

const parameter = (value: number, unit: string, mark: Mark, source: string): Parameter => ({
  value,
  unit,
  mark,
  source,
});

const RIPPE_1991 = 'Rippe, Stelin, Haraldsson, Kidney Int 1991, and later papers of the group';
const TUNED = 'tuned to the published clinical means in tests/reference/kinetics';

/** The population's membrane, for 1.73 m² of body surface. */
export const POPULATION = {
  lpSMlPerMinPerMmHg: parameter(0.074, 'mL/min/mmHg', 'from memory', RIPPE_1991),
  waterPoreShare: parameter(0.02, '1', 'published', 'Venturoli and Rippe, serial three-pore model (abstract)'),
  smallPoreShare: parameter(0.9, '1', 'published', 'Venturoli and Rippe, serial three-pore model (abstract)'),
  largePoreShare: parameter(0.08, '1', 'published', 'Venturoli and Rippe, serial three-pore model (abstract)'),
  smallPoreRadiusA: parameter(43, 'Å', 'from memory', 'published range 40 to 55'),
  largePoreRadiusA: parameter(250, 'Å', 'from memory', 'published range 200 to 300'),
  areaOverLengthCm: parameter(25_000, 'cm', 'from memory', 'unrestricted area over diffusion distance, A0/dx'),
  lymphMlPerMin: parameter(0.3, 'mL/min', 'published', 'lymphatic and tissue absorption'),
  pressureMmHg: parameter(9, 'mmHg', 'from memory', 'hydrostatic pressure difference at 2250 mL'),
  pressureVolumeMl: parameter(2250, 'mL', 'chosen', 'the volume at which that pressure holds'),
  pressureMlPerMmHg: parameter(490, 'mL/mmHg', 'published', '1 to 3 cmH2O per litre'),
  proteinOncoticMmHg: parameter(22, 'mmHg', 'from memory', 'plasma protein'),
  proteinRadiusA: parameter(36, 'Å', 'from memory', 'albumin'),
  mmHgPerMmolPerL: parameter(19.34, 'mmHg per mmol/L', 'arithmetic', 'van ’t Hoff at 37 °C'),
  recruitmentExtra: parameter(0.6875, '1', 'from memory', 'early vasodilation, decays with time'),
  recruitmentMinutes: parameter(50, 'min', 'from memory', 'time constant of that decay'),
  wettingPerMl: parameter(0.00077, '1/mL', 'from memory', 'wetted area against volume'),
  bodySurfaceM2: parameter(1.73, 'm²', 'chosen', 'the size these values are for'),
} as const;

/** Solute radii, Å (from memory). */
export const RADIUS_A: PerSolute = { glucose: 3.7, creatinine: 3.0, urea: 2.6, sodium: 2.3 };

/** Permeability surface products of the small pores at A0/dx 25,000 cm, mL/min. Mark: tuned. */
export const PS_ML_PER_MIN: PerSolute = { glucose: 10, creatinine: 10.5, urea: 22, sodium: 4 };
export const PS_SOURCE = TUNED;

/** Osmotic particles per molecule; sodium brings its anion (chosen). */
export const OSMOTIC_FACTOR: PerSolute = { glucose: 1, creatinine: 1, urea: 1, sodium: 1.86 };

/** Plasma of a mean patient, mmol/L (chosen; the patient's own are better). */
export const MEAN_PLASMA: PerSolute = { glucose: 6, creatinine: 0.8, urea: 20, sodium: 140 };

/** Molar mass of glucose, g/mmol (arithmetic). */
export const GLUCOSE_G_PER_MMOL = 0.18016;

/** Icodextrin as one colloid (semi-empirical: a full polymer model missed by a factor of three). */
export const ICODEXTRIN = {
  gPerL: 75,
  mmHgPerGPerL: 0.72,
  reflectionWater: 1,
  reflectionSmall: 0.95,
  reflectionLarge: 0.1,
  lossMlPerMin: 1.1,
} as const;

/** Bounds of the model: outside them it answers "outside the model" and no number. */
export const BOUNDS = {
  fillLeastMl: 500,
  fillMostMl: 3500,
  dwellMostMinutes: 720,
  icodextrinMostMinutes: 960,
  areaOverLengthLeastCm: 5_000,
  areaOverLengthMostCm: 65_000,
  lpSLeast: 0.037,
  lpSMost: 0.133,
} as const;
