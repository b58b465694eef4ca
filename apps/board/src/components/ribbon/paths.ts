/** Volume at the top of the ribbon, mL. */
export const TOP_ML = 3000;

/** A level at a minute of the axis. */
export type Point = readonly [minute: number, ml: number];

/** Minutes to a tenth and whole mL are finer than any screen. */
const at = ([minute, ml]: Point): string =>
  `${Math.round(minute * 10) / 10} ${Math.round(TOP_ML - Math.min(ml, TOP_ML))}`;

/** A line through levels, for an SVG that is `TOP_ML` high and counts minutes. */
export const line = (points: readonly Point[]): string => `M${points.map(at).join('L')}`;

/** The water under such a line, down to the bed. */
export const area = (points: readonly Point[]): string => {
  const first = points[0];
  const last = points.at(-1);
  return first && last ? `${line([[first[0], 0], ...points, [last[0], 0]])}Z` : '';
};
