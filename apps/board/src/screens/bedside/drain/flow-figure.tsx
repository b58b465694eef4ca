import styles from './flow-figure.module.css';

const WIDTH = 540;
const HIGH = 122;
const LOW = 62;
const TOP = 8;

type FlowFigureProps = {
  title: string;
  minutes: number;
  /** mL inside at the start and, as expected, at the end; null = not known, then no level is drawn. */
  fromMl: number | null;
  toMl: number | null;
  usual: { minutes: number; least: number; most: number } | null;
  /** When it is noted as slow, minutes, and how that is called. */
  slow: { minutes: number; words: string };
  /** The patient's own limit, mL. */
  limitMl?: number | null;
  /** A flat picture, where more must stand below it. */
  flat?: boolean;
};

const ticks = (spanMinutes: number): readonly number[] => {
  const step = spanMinutes > 90 ? 30 : 10;
  return Array.from({ length: Math.floor(spanMinutes / step) + 1 }, (_, index) => index * step);
};

/** A drain or a fill as a ribbon grown large: length is time, height is what is inside. Unmeasured until it ends. */
export const FlowFigure = ({
  title,
  minutes,
  fromMl,
  toMl,
  usual,
  slow,
  limitMl = null,
  flat = false,
}: FlowFigureProps) => {
  const base = flat ? LOW : HIGH;
  const span = Math.max(45, minutes + 5);
  const most = Math.max(3000, fromMl ?? 0, toMl ?? 0, limitMl ?? 0);
  const x = (minute: number) => (minute / span) * WIDTH;
  const y = (ml: number) => base - (ml / most) * (base - TOP);
  const now = x(minutes);
  const level = fromMl !== null && toMl !== null ? { fromMl, toMl } : null;
  const usualAt = usual?.minutes ?? null;
  const share = usualAt ? Math.min(1, minutes / usualAt) : 0;
  const nowMl = level && usualAt ? level.fromMl + (level.toMl - level.fromMl) * share : null;
  return (
    <svg className={styles.figure} viewBox={`0 0 ${WIDTH} ${base + 18}`} role="img" aria-label={title}>
      {ticks(span).map((minute) => (
        <g key={minute}>
          <path className={styles.grid} d={`M${x(minute)} 0V${base}`} />
          {Math.abs(x(minute) - now) > 36 && (
            <text x={x(minute)} y={base + 15} textAnchor={minute === 0 ? 'start' : 'middle'}>
              {minute === 0 ? '0 min' : minute}
            </text>
          )}
        </g>
      ))}
      <path className={styles.base} d={`M0 ${base}H${WIDTH}`} />
      {level && nowMl !== null && (
        <>
          <path className={styles.water} d={`M0 ${base}L0 ${y(level.fromMl)}L${now} ${y(nowMl)}L${now} ${base}Z`} />
          <path className={styles.level} d={`M0 ${y(level.fromMl)}L${now} ${y(nowMl)}`} />
          {usualAt !== null && (
            <path
              className={styles.planned}
              d={`M${now} ${y(nowMl)}L${x(Math.max(minutes, usualAt))} ${y(level.toMl)}H${WIDTH}`}
            />
          )}
        </>
      )}
      {limitMl !== null && (
        <>
          <path className={styles.limit} d={`M0 ${y(limitMl)}H${WIDTH}`} />
          <text x={WIDTH} y={y(limitMl) - 4} textAnchor="end">
            most inside
          </text>
        </>
      )}
      {usual && (
        <>
          <path className={styles.post} d={`M${x(usual.minutes)} ${TOP}V${base}`} />
          <path
            className={styles.post}
            d={`M${x(usual.least)} ${base - 1.5}H${Math.max(x(usual.most), x(usual.least) + 4)}`}
          />
          <text x={x(usual.minutes) + 7} y={limitMl === null ? 22 : 48}>
            usual
          </text>
        </>
      )}
      <path className={styles.thin} d={`M${x(slow.minutes)} ${TOP}V${base}`} />
      <text x={x(slow.minutes) + 6} y={limitMl === null ? 22 : 48}>
        {slow.words}
      </text>
      <path className={styles.now} d={`M${now} 0V${base}`} />
      <rect x={Math.max(0, now - 20)} y={base + 1} width={40} height={17} />
      <text x={Math.max(20, now)} y={base + 14} textAnchor="middle">
        now
      </text>
    </svg>
  );
};
