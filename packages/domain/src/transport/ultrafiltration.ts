import { type Computed, computed, unlessRefused } from '../units/computed.ts';
import { checkNumber, type Range } from '../units/ranges.ts';

/** Limits of low ultrafiltration in a 4 h test; settings. 400 mL: ISPD; 100 mL: ISPD 2021, from memory. */
const LOW_ULTRAFILTRATION = [
  { name: '2.27 %', fromGPerL: 20, toGPerL: 26, belowMl: 100 },
  { name: '3.86 %', fromGPerL: 36, toGPerL: 44, belowMl: 400 },
] as const;

export type TestVolumes = {
  /** Anhydrous glucose, g/L. */
  glucoseGPerL: number;
  labelledMl: number;
  /** What the maker puts in above the label, mL; null = not known. */
  bagExcessMl: number | null;
  /** Run into the drain bag before the fill, mL. */
  flushMl: number;
  /** What the drain bag held, mL. */
  drainBagMl: number;
  /** The flush is in the drain bag. */
  flushInDrainBag: boolean;
};

export type UltrafiltrationFigure = { ml: number; low: boolean; corrected: string };

export type TestUltrafiltration = {
  limitMl: number;
  /** Drain bag − label, as older papers have it. */
  uncorrected: UltrafiltrationFigure;
  /** Flush out of both sides, bag excess into what went in; null while the excess is not known. */
  corrected: UltrafiltrationFigure | null;
};

const BAG: Range = { least: 500, most: 6_000, unit: 'mL' };

/**
 * Ultrafiltration of a 4 h test both ways, since the published limits do not agree on the bag excess: each figure says
 * what is corrected in it. Uncorrected = drain bag − label; corrected = (drain bag − flush in it) − (label + bag
 * excess − flush).
 * @returns both, or the problems: a strength that has no limit (2.27 and 3.86 % have), volumes out of range
 */
export const testUltrafiltration = (volumes: TestVolumes): Computed<TestUltrafiltration> => {
  const { glucoseGPerL, labelledMl, bagExcessMl, flushMl, drainBagMl, flushInDrainBag } = volumes;
  const limit = LOW_ULTRAFILTRATION.find(
    ({ fromGPerL, toGPerL }) => glucoseGPerL >= fromGPerL && glucoseGPerL <= toGPerL,
  );
  return unlessRefused(
    [
      ...checkNumber('labelledMl', labelledMl, BAG),
      ...checkNumber('drainBagMl', drainBagMl, { ...BAG, least: 0 }),
      ...checkNumber('flushMl', flushMl, { least: 0, most: 500, unit: 'mL' }),
      ...(bagExcessMl === null ? [] : checkNumber('bagExcessMl', bagExcessMl, { least: 0, most: 500, unit: 'mL' })),
      ...(limit ? [] : [noLimit(glucoseGPerL)]),
    ],
    () => {
      const figure = (ml: number, corrected: string): UltrafiltrationFigure => ({
        ml,
        low: ml < limit!.belowMl,
        corrected,
      });
      return computed<TestUltrafiltration>({
        limitMl: limit!.belowMl,
        uncorrected: figure(drainBagMl - labelledMl, 'neither flush nor bag excess is corrected'),
        corrected:
          bagExcessMl === null
            ? null
            : figure(
                drainBagMl - (flushInDrainBag ? flushMl : 0) - (labelledMl + bagExcessMl - flushMl),
                'flush and bag excess are corrected',
              ),
      });
    },
  );
};

const noLimit = (glucoseGPerL: number) => ({
  code: 'no-limit',
  field: 'glucoseGPerL',
  value: glucoseGPerL,
  allowed: LOW_ULTRAFILTRATION.map(({ fromGPerL, toGPerL }) => `${fromGPerL} to ${toGPerL}`)
    .join(' or ')
    .concat(' g/L'),
  message: `There is no limit of low ultrafiltration for ${glucoseGPerL} g/L`,
});
