import { type Computed, computed, unlessRefused } from '../units/computed.ts';
import { checkNumbers, type Range } from '../units/ranges.ts';

const SODIUM: Range = { least: 80, most: 170, unit: 'mmol/L' };
const VOLUME: Range = { least: 0, most: 60_000, unit: 'mL' };

/** Volumes and sodium of what went in and what came out; one dwell or a day. */
export type SodiumBalance = {
  infusedMl: number;
  infusedSodiumMmolPerL: number;
  drainedMl: number;
  drainedSodiumMmolPerL: number;
};

/**
 * Sodium removed, mmol: V_out · Na_out − V_in · Na_in. Negative = gained.
 * @param balance 0 to 60,000 mL; 80 to 170 mmol/L
 */
export const sodiumRemovedMmol = (balance: SodiumBalance): Computed<number> =>
  unlessRefused(
    checkNumbers(balance, {
      infusedMl: VOLUME,
      infusedSodiumMmolPerL: SODIUM,
      drainedMl: VOLUME,
      drainedSodiumMmolPerL: SODIUM,
    }),
    () =>
      computed(
        (balance.drainedMl * balance.drainedSodiumMmolPerL - balance.infusedMl * balance.infusedSodiumMmolPerL) / 1000,
      ),
  );

/** At or under this fall in the first hour of 3.86 % free-water transport is poor (from memory; a setting). */
const POOR_SODIUM_FALL_MMOL_PER_L = 5;

/**
 * Fall of dialysate sodium in the first hour of a 3.86 % dwell, mmol/L, and what it says of free water: water that
 * comes through channels without sodium dilutes the dialysate.
 */
export const sodiumFall = (
  zeroMmolPerL: number,
  oneHourMmolPerL: number,
): Computed<{ fallMmolPerL: number; freeWater: 'poor' | 'notPoor' }> =>
  unlessRefused(
    checkNumbers({ zeroMmolPerL, oneHourMmolPerL }, { zeroMmolPerL: SODIUM, oneHourMmolPerL: SODIUM }),
    () => {
      const fallMmolPerL = zeroMmolPerL - oneHourMmolPerL;
      return computed({ fallMmolPerL, freeWater: fallMmolPerL <= POOR_SODIUM_FALL_MMOL_PER_L ? 'poor' : 'notPoor' });
    },
  );
