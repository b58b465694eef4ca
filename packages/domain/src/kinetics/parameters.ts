/** How far a value can be relied on: seen in the cited text, from memory of it, tuned to published means, or chosen. */
export type ParameterMark = 'published' | 'from memory' | 'tuned' | 'chosen' | 'arithmetic';

export type Parameter = { value: number; unit: string; mark: ParameterMark; source: string };

export const SOLUTES = ['glucose', 'creatinine', 'urea', 'sodium'] as const;
export type Solute = (typeof SOLUTES)[number];
export type PerSolute = Readonly<Record<Solute, number>>;

/** The same as a row of numbers in the order of SOLUTES. */
export const inOrder = (values: PerSolute): Float64Array => Float64Array.from(SOLUTES, (solute) => values[solute]);

const parameter = (value: number, unit: string, mark: ParameterMark, source: string): Parameter => ({
  value,
  unit,
  mark,
  source,
});

const RIPPE_1991 = 'Rippe, Stelin, Haraldsson, Kidney Int 1991, and later papers of the group';

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

/** One quantity of every solute. */
export type SoluteParameters = { values: PerSolute; unit: string; mark: ParameterMark; source: string };

export const PER_SOLUTE = {
  radiusA: {
    values: { glucose: 3.7, creatinine: 3.0, urea: 2.6, sodium: 2.3 },
    unit: 'Å',
    mark: 'from memory',
    source: RIPPE_1991,
  },
  /** Of the small pores, at A0/dx 25,000 cm. */
  psMlPerMin: {
    values: { glucose: 10, creatinine: 10.5, urea: 22, sodium: 4 },
    unit: 'mL/min',
    mark: 'tuned',
    source: 'tuned to the published clinical means that the reference suite holds the model against',
  },
  osmoticFactor: {
    values: { glucose: 1, creatinine: 1, urea: 1, sodium: 1.86 },
    unit: '1',
    mark: 'chosen',
    source: 'osmotic particles per molecule; sodium brings its anion',
  },
  plasmaMmolPerL: {
    values: { glucose: 6, creatinine: 0.8, urea: 20, sodium: 140 },
    unit: 'mmol/L',
    mark: 'chosen',
    source: 'a mean patient; the patient’s own are better',
  },
} as const satisfies Record<string, SoluteParameters>;

/** Plasma of a mean patient, mmol/L. */
export const MEAN_PLASMA: PerSolute = PER_SOLUTE.plasmaMmolPerL.values;

/** Molar mass of glucose, g/mmol (arithmetic). */
export const GLUCOSE_G_PER_MMOL = 0.18016;

/**
 * Icodextrin as one colloid that plasma does not hold: semi-empirical, because a full polymer model missed the published
 * ultrafiltration by a factor of three. Not scaled by area, wetting or recruitment.
 */
export const ICODEXTRIN = {
  gPerL: parameter(75, 'g/L', 'published', 'label of the 7.5 % fluid'),
  mmHgPerGPerL: parameter(0.72, 'mmHg per g/L', 'tuned', 'to published ultrafiltration, whose sources differ twofold'),
  reflectionWater: parameter(1, '1', 'chosen', 'water-only pores pass no colloid'),
  reflectionSmall: parameter(0.95, '1', 'tuned', 'to published ultrafiltration'),
  reflectionLarge: parameter(0.1, '1', 'tuned', 'to published ultrafiltration'),
  lossMlPerMin: parameter(1.1, 'mL/min', 'tuned', 'to the published share absorbed; lymph comes on top'),
} as const;
