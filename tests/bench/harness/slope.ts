import { studentQuantile } from '@slackwater/domain/statistics/quantile';

export type Slope = { slope: number; lower: number; upper: number };

/**
 * The straight line through the points by least squares: its slope, with its 95 % interval by Student's t.
 * @param points at least three, not all of one `x`
 */
export function slopeOf(points: readonly { x: number; y: number }[]): Slope {
  const mean = (of: (point: { x: number; y: number }) => number) =>
    points.reduce((sum, point) => sum + of(point), 0) / points.length;
  const meanX = mean(({ x }) => x);
  const meanY = mean(({ y }) => y);
  const spreadX = points.reduce((sum, { x }) => sum + (x - meanX) ** 2, 0);
  const slope = points.reduce((sum, { x, y }) => sum + (x - meanX) * (y - meanY), 0) / spreadX;
  const left = points.reduce((sum, { x, y }) => sum + (y - meanY - slope * (x - meanX)) ** 2, 0);
  const freedom = points.length - 2;
  const half = studentQuantile(0.975, freedom) * Math.sqrt(left / freedom / spreadX);
  return { slope, lower: slope - half, upper: slope + half };
}
