import type { Solution } from '../solution/solution.ts';
import { type ExpectedUfKey, type ExpectedUfSettings, TABLE_HOURS, TABLE_STRENGTHS } from './expected-table.ts';

/** Expected ultrafiltration (positive = fluid comes off) and its spread, mL. */
export type ExpectedUf = { ufMl: number; sdMl: number };

type Point = ExpectedUf & { at: number };

/** The fill that the table is for. */
const TABLE_FILL_ML = 2000;
/** The last value holds so much longer; beyond it nothing is known. */
const GLUCOSE_REACH_HOURS = 12;
const ICODEXTRIN_REACH_HOURS = 16;
/** The one icodextrin strength that the table knows, g/L. */
const ICODEXTRIN_G_PER_L = 75;

/**
 * What a dwell should bring beyond its fill, by the ward's table: straight lines between lengths (0 at 0 h) and, by g/L
 * of anhydrous glucose, between strengths; the 8 h value to 12 h, icodextrin's 10 h value to 16 h; in proportion to the
 * fill. null = beyond the table's reach: not known, never guessed.
 *
 * @param fillMl what went in, mL
 * @param dwellMinutes end of the fill to the start of the drain
 */
export function expectedUf(
  solution: Solution,
  fillMl: number,
  dwellMinutes: number,
  settings: ExpectedUfSettings,
): ExpectedUf | null {
  const hours = dwellMinutes / 60;
  if (hours < 0) return null;
  const forTableFill =
    solution.icodextrinGPerL > 0 ? icodextrinUf(solution, hours, settings) : glucoseUf(solution, hours, settings);
  if (forTableFill === null) return null;
  const scale = fillMl / TABLE_FILL_ML;
  return { ufMl: forTableFill.ufMl * scale, sdMl: forTableFill.sdMl * scale };
}

function icodextrinUf(solution: Solution, hours: number, settings: ExpectedUfSettings): ExpectedUf | null {
  const known = solution.icodextrinGPerL === ICODEXTRIN_G_PER_L && solution.glucoseGPerL === 0;
  if (!known || hours > ICODEXTRIN_REACH_HOURS) return null;
  const last = cell('ufIcodextrinAt10hMl', 'ufIcodextrinAt10hSdMl', settings);
  return along(
    [
      { at: 0, ufMl: 0, sdMl: 0 },
      { at: 10, ...last },
    ],
    Math.min(hours, 10),
  );
}

function glucoseUf(solution: Solution, hours: number, settings: ExpectedUfSettings): ExpectedUf | null {
  if (hours > GLUCOSE_REACH_HOURS) return null;
  const byStrength = TABLE_STRENGTHS.flatMap(({ name, glucoseGPerL }) => {
    const byLength = TABLE_HOURS.map((at) => ({
      at,
      ...cell(`uf${name}At${at}hMl`, `uf${name}At${at}hSdMl`, settings),
    }));
    const value = along([{ at: 0, ufMl: 0, sdMl: 0 }, ...byLength], Math.min(hours, 8));
    return value === null ? [] : [{ at: glucoseGPerL, ...value }];
  });
  return along(byStrength, solution.glucoseGPerL);
}

const cell = (uf: ExpectedUfKey, sd: ExpectedUfKey, settings: ExpectedUfSettings): ExpectedUf => ({
  ufMl: settings[uf],
  sdMl: settings[sd],
});

/** The straight line between the two points around `at`; null outside them. */
function along(points: readonly Point[], at: number): ExpectedUf | null {
  const right = points.findIndex((point) => point.at >= at);
  const after = points[right];
  if (after === undefined) return null;
  if (after.at === at) return { ufMl: after.ufMl, sdMl: after.sdMl };
  const before = points[right - 1];
  if (before === undefined) return null;
  const share = (at - before.at) / (after.at - before.at);
  return {
    ufMl: before.ufMl + share * (after.ufMl - before.ufMl),
    sdMl: before.sdMl + share * (after.sdMl - before.sdMl),
  };
}
