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
import { fromZero } from './series.ts';

/** One place on the axis. `value` null is missing: nothing is drawn there but a dotted upright, and lines break. */
export type ChartPoint = {
  label: string;
  value: number | null;
  missing: boolean;
  /** A hollow bar or dot: what stands on less than a complete measure. */
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

/** Recharts, held behind one door: no motion, no tooltip that only a mouse can reach, missing drawn as missing. */
const Chart = ({ as, points, axis, target = null }: ChartProps) => (
  <ResponsiveContainer width="100%" height="100%">
    <ComposedChart data={[...points]} margin={{ top: 8, right: 12, bottom: 4, left: 0 }} accessibilityLayer={false}>
      <CartesianGrid stroke={RULE} vertical={false} />
      <XAxis dataKey="label" stroke={INK} tickLine={false} interval="preserveStartEnd" minTickGap={28} />
      <YAxis
        stroke={INK}
        width={axis === 'balance' ? 128 : 64}
        tickLine={false}
        axisLine={false}
        domain={axis === 'kg' ? ['dataMin - 1', 'dataMax + 1'] : fromZero(points)}
        tickFormatter={axis === 'balance' ? balanceTick : (kg: number) => `${Math.round(kg * 10) / 10} kg`}
      />
      {axis === 'balance' && <ReferenceLine y={0} stroke={INK} strokeWidth={1.4} />}
      {target && (
        <ReferenceLine
          y={target.value}
          stroke={INK}
          strokeDasharray="9 5"
          label={{ value: target.words, position: 'insideTopRight' }}
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
        <Line
          dataKey="value"
          isAnimationActive={false}
          connectNulls={false}
          type="linear"
          stroke={WATER}
          strokeWidth={1.6}
          dot={{ fill: WATER, stroke: WATER, r: 3.5 }}
        />
      )}
      {points.some((point) => point.expected !== null) && (
        <Scatter dataKey="expected" isAnimationActive={false} fill={INK} shape={<ExpectedMark />} />
      )}
    </ComposedChart>
  </ResponsiveContainer>
);

/** What was expected, as a post across its bar. */
const ExpectedMark = ({ cx, cy }: { cx?: number; cy?: number }) =>
  cx === undefined || cy === undefined || Number.isNaN(cy) ? null : (
    <rect x={cx - 11} y={cy - 1} width={22} height={2.4} fill={INK} />
  );

export default Chart;
