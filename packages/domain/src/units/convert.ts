import type { Problem } from '../record/problem.ts';
import { type Computed, computed, refused, unlessRefused } from './computed.ts';
import { checkNumber } from './ranges.ts';
import type { Substance } from './substances.ts';
import { type Dimension, readUnit, type Unit } from './ucum.ts';

/**
 * Converts a value from one UCUM unit to another: `convert(90, 'mg/dL', 'mmol/L', SUBSTANCES.glucose)`.
 * The factor comes from the units and, between mass, amount and equivalents, from the substance's own formula and
 * charge; nothing is tabulated.
 * @returns the value in `to`, or the problem: not a number, a unit that cannot be read, units that do not measure the
 * same thing, a missing substance
 */
export const convert = (value: number, from: string, to: string, substance?: Substance): Computed<number> => {
  const source = readUnit(from);
  const target = readUnit(to);
  if (!source) return refused(unreadable('from', from));
  if (!target) return refused(unreadable('to', to));
  const factor = factorBetween(source, target, substance);
  if (factor === null) return refused(incomparable(from, to, substance));
  const anyNumber = { least: -Number.MAX_VALUE, most: Number.MAX_VALUE, unit: from };
  return unlessRefused(checkNumber('value', value, anyNumber), () => computed(value * factor));
};

/** Base units of amount: what one mole of the substance is in grams and in equivalents. */
const factorBetween = (from: Unit, to: Unit, substance: Substance | undefined): number | null => {
  const perMole = {
    gram: substance?.molarMassGPerMol ?? Number.NaN,
    equivalent: substance && substance.charge > 0 ? substance.charge : Number.NaN,
  };
  const inMoles = (unit: Unit): number =>
    unit.magnitude *
    (unit.dimension.gram === 0 ? 1 : perMole.gram ** -unit.dimension.gram) *
    (unit.dimension.equivalent === 0 ? 1 : perMole.equivalent ** -unit.dimension.equivalent);
  if (sameDimension(from.dimension, to.dimension)) return from.magnitude / to.magnitude;
  if (!sameDimension(massAsMoles(from.dimension), massAsMoles(to.dimension))) return null;
  const factor = inMoles(from) / inMoles(to);
  return Number.isFinite(factor) ? factor : null;
};

const sameDimension = (a: Dimension, b: Dimension): boolean =>
  (Object.keys(a) as (keyof Dimension)[]).every((base) => a[base] === b[base]);

const massAsMoles = (dimension: Dimension): Dimension => ({
  ...dimension,
  gram: 0,
  equivalent: 0,
  mole: dimension.mole + dimension.gram + dimension.equivalent,
});

const unreadable = (field: string, code: string): Problem => ({
  code: 'unit-unreadable',
  field,
  value: code,
  allowed: 'a UCUM code such as mg/dL, mmol/L, umol/L, g/L, mL/min, 10*6/L, /uL',
  message: `The unit "${code}" cannot be read`,
});

const incomparable = (from: string, to: string, substance: Substance | undefined): Problem => ({
  code: 'units-differ',
  field: 'to',
  value: to,
  allowed: `a unit that measures the same as ${from}`,
  message: `${from} cannot be converted to ${to}${substance ? ` for ${substance.name}` : ' without naming a substance'}`,
});
