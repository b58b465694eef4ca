import { formatWhole } from '@slackwater/domain/words/numbers';
import {
  Bar,
  CartesianGrid,
  Cell,
  ComposedChart,
  Line,
  ReferenceLine,
  ResponsiveContainer,
  Scatter,
  XAxis,
  YAxis,
} from 'recharts';
import { roundTicks } from './round-ticks.ts';

/** One place on the axis. `value` null is missing: nothing is drawn there but a dotted upright, and lines break. */
export type ChartPoint = {
  label: string;
  value: number | null;
  missing: boolean;
  /** A hollow bar or dot: what is of another kind, and no line joins it to the full ones. */
  hollow: boolean;
  expected: number | null;
};

type ChartProps = {
  as: 'bars' | 'line';
  points: readonly ChartPoint[];
  /** "Removed" above, "Retained" below the zero line; or a plain unit. */
  axis: 'balance' | 'kg';
  target?: { value: number; words: string } | null;
};

const INK = 'var(--ink)';
const WATER = 'var(--water-edge)';
const PAPER = 'var(--paper)';
const RULE = 'var(--rule)';

const balanceTick = (ml: number): string =>
  ml === 0 ? '0 mL' : `${ml > 0 ? 'Removed' : 'Retained'} ${formatWhole(ml)}`;

/**
 * The ends and lines of the axis. Zero is always on a balance's: the length of a bar is the volume, and a bar that starts
 * at 600 makes a small difference look like a large one. A target is on it too.
 */
const ticksOf = ({ points, axis, target }: Pick<ChartProps, 'points' | 'axis' | 'target'>): readonly number[] => {
  const drawn = points.flatMap(({ value, expected }) => [value, expected]).filter((one) => one !== null);
  return axis === 'balance'
    ? roundTicks([0, ...drawn], 100)
    : roundTicks([...drawn, ...(target ? [target.value] : [])], 1);
};

/** Recharts, held behind one door: no motion, no tooltip that only a mouse can reach, missing drawn as missing. */
const Chart = ({ as, points, axis, target = null }: ChartProps) => {
  const ticks = ticksOf({ points, axis, target });
  return (
    <ResponsiveContainer width="100%" height="100%">
      <ComposedChart data={[...points]} margin={{ top: 8, right: 12, bottom: 4, left: 0 }} accessibilityLayer={false}>
        <CartesianGrid stroke={RULE} vertical={false} />
        <XAxis dataKey="label" stroke={INK} tickLine={false} interval="preserveStartEnd" minTickGap={28} />
        <YAxis
          stroke={INK}
          width={axis === 'balance' ? 128 : 64}
          tickLine={false}
          axisLine={false}
          ticks={[...ticks]}
          domain={[ticks[0] ?? 0, ticks.at(-1) ?? 0]}
          interval={0}
          tickFormatter={axis === 'balance' ? balanceTick : (kg: number) => `${kg} kg`}
        />
        {axis === 'balance' && <ReferenceLine y={0} stroke={INK} strokeWidth={1.4} />}
        {target && (
          <ReferenceLine
            y={target.value}
            stroke={INK}
            strokeDasharray="9 5"
            label={<TargetWords words={target.words} />}
          />
        )}
        {points
          .filter((point) => point.missing)
          .map((point) => (
            <ReferenceLine key={point.label} x={point.label} stroke="var(--ink-2)" strokeDasharray="2 4" />
          ))}
        {as === 'bars' ? (
          <Bar dataKey="value" isAnimationActive={false} maxBarSize={26} stroke={WATER} strokeWidth={1.2}>
            {points.map((point) => (
              <Cell key={point.label} fill={point.hollow ? PAPER : WATER} />
            ))}
          </Bar>
        ) : (
          [false, true].map((hollow) => (
            <Line
              key={String(hollow)}
              dataKey={(point: ChartPoint) => (point.hollow === hollow ? point.value : null)}
              isAnimationActive={false}
              connectNulls={false}
              type="linear"
              stroke={WATER}
              strokeWidth={1.6}
              dot={{ fill: hollow ? PAPER : WATER, stroke: WATER, r: 3.5 }}
            />
          ))
        )}
        {points.some((point) => point.expected !== null) && (
          <Scatter dataKey="expected" isAnimationActive={false} fill={INK} shape={<ExpectedMark />} />
        )}
      </ComposedChart>
    </ResponsiveContainer>
  );
};

/** Its words stand on paper, above their line: no line of the axis runs through them. */
const TargetWords = ({ words, viewBox }: { words: string; viewBox?: { x: number; y: number; width: number } }) =>
  viewBox ? (
    <text
      x={viewBox.x + viewBox.width - 2}
      y={viewBox.y - 5}
      textAnchor="end"
      fill={INK}
      stroke={PAPER}
      strokeWidth={5}
      paintOrder="stroke"
    >
      {words}
    </text>
  ) : null;

/** What was expected, as a post across its bar. */
const ExpectedMark = ({ cx, cy }: { cx?: number; cy?: number }) =>
  cx === undefined || cy === undefined || Number.isNaN(cy) ? null : (
    <rect x={cx - 11} y={cy - 1} width={22} height={2.4} fill={INK} />
  );

export default Chart;
