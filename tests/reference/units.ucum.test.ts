import { createRequire } from 'node:module';
import { describe, expect, it } from 'vitest';
import { convert } from '../../packages/domain/src/units/convert.ts';
import { SUBSTANCES, type Substance } from '../../packages/domain/src/units/substances.ts';

/** The package comes without types. */
type Oracle = { convertUnitTo(from: string, value: number, to: string, options: object): { toVal: number | null } };
const { UcumLhcUtils } = createRequire(import.meta.url)('@lhncbc/ucum-lhc') as {
  UcumLhcUtils: { getInstance(): Oracle };
};
const oracle = UcumLhcUtils.getInstance();

/** What the UCUM package of the US National Library of Medicine makes of it; null when it cannot. */
const byOracle = (value: number, from: string, to: string, substance?: Substance): number | null => {
  const options: { molecularWeight?: number; charge?: number } = {};
  if (substance) options.molecularWeight = substance.molarMassGPerMol;
  if (substance && substance.charge > 0) options.charge = substance.charge;
  return oracle.convertUnitTo(from, value, to, options).toVal;
};

const SAME_KIND = [
  ['mg/dL', 'g/L', 'g/dL', 'ug/mL', 'mg/L', 'kg/L'],
  ['mmol/L', 'umol/L', 'mol/L', 'nmol/mL', 'mmol/dL'],
  ['meq/L', 'eq/L', 'ueq/mL'],
  ['L', 'mL', 'dL', 'cL', 'uL'],
  ['g', 'kg', 'mg', 'ug', '[lb_av]'],
  ['m', 'cm', 'mm', '[in_i]'],
  ['mL/min', 'L/wk', 'L/d', 'mL/h', 'L/h', 'mL/s'],
  ['/uL', '10*6/L', '10*9/L', '10*3/uL', '/mL'],
  ['mm[Hg]', 'cm[H2O]', 'kPa', 'Pa'],
  ['kcal', 'kJ', 'J', 'cal'],
  ['min', 'h', 'd', 'wk', 's'],
  ['g/d', 'mg/min', 'g/wk', 'kg/d'],
  ['mosm/L', 'osm/L', 'uosm/mL'],
] as const;

describe('our conversions against @lhncbc/ucum-lhc', () => {
  for (const kind of SAME_KIND) {
    it(`agrees to 1e-12 on every pair of ${kind.join(', ')}`, () => {
      for (const from of kind) {
        for (const to of kind) {
          const wanted = byOracle(7.25, from, to);
          expect(wanted, `${from} → ${to}`).not.toBeNull();
          expect(convert(7.25, from, to).value! / wanted!, `${from} → ${to}`).toBeCloseTo(1, 12);
        }
      }
    });
  }

  it('agrees between mass and amount for every substance, both ways', () => {
    for (const substance of Object.values(SUBSTANCES)) {
      for (const [mass, amount] of [
        ['mg/dL', 'mmol/L'],
        ['g/L', 'umol/L'],
        ['mg', 'mmol'],
      ] as const) {
        const there = convert(90, mass, amount, substance).value!;
        expect(there / byOracle(90, mass, amount, substance)!, substance.name).toBeCloseTo(1, 10);
        expect(convert(there, amount, mass, substance).value!).toBeCloseTo(90, 9);
      }
    }
  });

  it('agrees between equivalents and amount for every ion', () => {
    for (const ion of Object.values(SUBSTANCES).filter((substance) => substance.charge > 0)) {
      expect(convert(4, 'meq/L', 'mmol/L', ion).value! / byOracle(4, 'meq/L', 'mmol/L', ion)!).toBeCloseTo(1, 12);
    }
  });

  it('refuses what it also refuses: other kinds, no substance, codes that are none', () => {
    for (const [from, to] of [
      ['mg/dL', 'mL'],
      ['mg/dL', 'mmol/L'],
      ['L', 'm'],
      ['furlongs', 'm'],
    ] as const) {
      expect(byOracle(1, from, to), `${from} → ${to}`).toBeNull();
      expect(convert(1, from, to).value, `${from} → ${to}`).toBeNull();
    }
  });
});
