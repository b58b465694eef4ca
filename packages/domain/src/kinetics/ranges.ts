import type { Problem } from '../record/problem.ts';
import { checkNumber, checkNumbers, ofPart, type Range } from '../units/ranges.ts';
import type { Bag, Residual } from './fluid.ts';
import type { Membrane } from './membrane.ts';
import { type PerSolute, SOLUTES } from './parameters.ts';

/** What the model can carry. Outside it there is a problem that names the range, and no number. */
export const FILL_RANGE: Range = { least: 500, most: 3500, unit: 'mL' };
const DWELL_RANGE: Range = { least: 1, most: 720, unit: 'min' };
const ICODEXTRIN_DWELL_RANGE: Range = { least: 1, most: 960, unit: 'min' };
export const RESIDUAL_RANGE: Range = { least: 0, most: 1500, unit: 'mL' };

/** Fitted A0/dx may be anything that the model works with. */
export const AREA_RANGE: Range = { least: 5_000, most: 65_000, unit: 'cm' };
/** A fitted LpS is held within these. */
export const FITTED_LPS_RANGE: Range = { least: 0.037, most: 0.133, unit: 'mL/min/mmHg' };

const BAG_RANGES = {
  glucoseMmolPerL: { least: 0, most: 260, unit: 'mmol/L' },
  sodiumMmolPerL: { least: 90, most: 150, unit: 'mmol/L' },
  icodextrinGPerL: { least: 0, most: 80, unit: 'g/L' },
} as const satisfies Record<keyof Bag, Range>;

const PLASMA_RANGES: Readonly<Record<(typeof SOLUTES)[number], Range>> = {
  glucose: { least: 1, most: 60, unit: 'mmol/L' },
  creatinine: { least: 0, moreThanLeast: true, most: 4, unit: 'mmol/L' },
  urea: { least: 0, moreThanLeast: true, most: 100, unit: 'mmol/L' },
  sodium: { least: 90, most: 190, unit: 'mmol/L' },
};

const LEFT_BEHIND: Range = { least: 0, most: 300, unit: 'mmol/L' };

const MEMBRANE_RANGES = {
  lpSMlPerMinPerMmHg: { least: 0.005, most: 0.3, unit: 'mL/min/mmHg' },
  areaOverLengthCm: AREA_RANGE,
  lymphMlPerMin: { least: 0, most: 3, unit: 'mL/min' },
} as const satisfies Record<keyof Membrane, Range>;

/** How long the model holds for a fluid. */
export const dwellRangeFor = (bag: Bag): Range => (bag.icodextrinGPerL > 0 ? ICODEXTRIN_DWELL_RANGE : DWELL_RANGE);

/** Bag, fill and length of a dwell. */
export const checkDwell = (dwell: { bag: Bag; fillMl: number; dwellMinutes: number }): readonly Problem[] => [
  ...ofPart('bag', checkNumbers(dwell.bag, BAG_RANGES)),
  ...checkNumber('fillMl', dwell.fillMl, FILL_RANGE),
  ...checkNumber('dwellMinutes', dwell.dwellMinutes, dwellRangeFor(dwell.bag)),
];

export const checkResidual = (residual: Residual): readonly Problem[] =>
  ofPart('residual', [
    ...checkNumber('volumeMl', residual.volumeMl, RESIDUAL_RANGE),
    ...SOLUTES.flatMap((solute) => checkNumber(`mmolPerL.${solute}`, residual.mmolPerL[solute], LEFT_BEHIND)),
    ...checkNumber('icodextrinGPerL', residual.icodextrinGPerL, BAG_RANGES.icodextrinGPerL),
  ]);

/** Membrane and plasma, where the patient's own are given. */
export const checkPatient = (patient: { membrane?: Membrane; plasmaMmolPerL?: PerSolute }): readonly Problem[] => [
  ...(patient.membrane ? ofPart('membrane', checkNumbers(patient.membrane, MEMBRANE_RANGES)) : []),
  ...(patient.plasmaMmolPerL ? ofPart('plasmaMmolPerL', checkNumbers(patient.plasmaMmolPerL, PLASMA_RANGES)) : []),
];

/** The volume fell to the residual: from then on the model says nothing. */
export const emptyAt = (minute: number): Problem => ({
  code: 'outside-model',
  field: 'dwellMinutes',
  value: minute,
  allowed: 'a dwell that ends before the cavity has run down to what stays behind',
  message: `Outside the model: empty at ${Math.round(minute)} min`,
});
