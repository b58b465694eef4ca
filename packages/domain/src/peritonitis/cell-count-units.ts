import type { Computed } from '../units/computed.ts';
import { convert } from '../units/convert.ts';

/** UCUM codes in which laboratories report cells. 100 /uL = 100 10*6/L = 0.1 10*9/L. */
export const CELL_COUNT_UNITS = ['/uL', '10*6/L', '10*9/L', '10*3/uL'] as const;
export type CellCountUnit = (typeof CELL_COUNT_UNITS)[number];

/**
 * A cell count in cells per microlitre. The 2022 guideline once printed "100 × 10⁹/L" (corrected in 2024): that is a
 * thousand times more, so the unit always travels with the number.
 */
export const cellsPerUl = (value: number, unit: CellCountUnit): Computed<number> => {
  const perUl = convert(value, unit, '/uL');
  return perUl.value === null ? perUl : { ...perUl, value: withoutBinaryDust(perUl.value) };
};

/** 0.1 × 10⁹/L is 100/µL and not a hair above the limit of 100. */
const withoutBinaryDust = (cells: number): number => Number(cells.toPrecision(12));
