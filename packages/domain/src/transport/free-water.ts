import type { Problem } from '../record/problem.ts';
import { type Computed, computed, unlessRefused } from '../units/computed.ts';
import { checkNumber } from '../units/ranges.ts';
import { type SodiumBalance, sodiumRemovedMmol } from './sodium.ts';

export type FreeWater = {
  sodiumRemovedMmol: number;
  ultrafiltrationMl: number;
  /** Water that came with sodium, through small pores, mL. */
  smallPoreMl: number;
  /** The rest: water without solutes, mL. */
  freeWaterMl: number;
  /** Its share of ultrafiltration; null without ultrafiltration. */
  freeWaterShare: number | null;
};

/**
 * Free-water transport by the mini test (a 3.86 % dwell of one hour): all sodium that was removed came with small-pore
 * water at plasma concentration; what remains of the ultrafiltration is free water.
 * Source: La Milia et al., Kidney Int 2005;68:840 (from memory).
 * @param balance true volumes, without flush and with the bag excess; their difference is the ultrafiltration
 * @param plasmaSodiumMmolPerL 100 to 170 mmol/L
 */
export const freeWater = (balance: SodiumBalance, plasmaSodiumMmolPerL: number): Computed<FreeWater> => {
  const removed = sodiumRemovedMmol(balance);
  return unlessRefused(
    [
      ...(removed.value === null ? removed.issues : []),
      ...checkNumber('plasmaSodiumMmolPerL', plasmaSodiumMmolPerL, { least: 100, most: 170, unit: 'mmol/L' }),
    ],
    () => {
      const ultrafiltrationMl = balance.drainedMl - balance.infusedMl;
      const smallPoreMl = (removed.value! * 1000) / plasmaSodiumMmolPerL;
      const freeWaterMl = ultrafiltrationMl - smallPoreMl;
      return computed<FreeWater>(
        {
          sodiumRemovedMmol: removed.value!,
          ultrafiltrationMl,
          smallPoreMl,
          freeWaterMl,
          freeWaterShare: ultrafiltrationMl > 0 ? freeWaterMl / ultrafiltrationMl : null,
        },
        oddSplit(smallPoreMl, freeWaterMl),
      );
    },
  );
};

/** A negative part is no water at all but the error of volumes and sodium: said, not hidden. */
const oddSplit = (smallPoreMl: number, freeWaterMl: number): readonly Problem[] =>
  smallPoreMl >= 0 && freeWaterMl >= 0
    ? []
    : [
        {
          code: 'negative-part',
          field: smallPoreMl < 0 ? 'smallPoreMl' : 'freeWaterMl',
          value: Math.min(smallPoreMl, freeWaterMl),
          allowed: '0 mL or more',
          message: 'One part of the ultrafiltration comes out negative: look at volumes, flush and sodium again',
        },
      ];
