import type { PrescriptionItem, Solution } from '@slackwater/domain';
import { solutionOf } from '@slackwater/domain/solution/formulary';
import { clockMinutesApart } from '@slackwater/domain/time/zone';
import styles from './prescription.module.css';

const WIDTH = 1000;
const BASE = 66;
const MOST_ML = 3400;
const DAY_MINUTES = 1440;
/** Drawn between two dwells: drain and fill. */
const TURN = 12;

const minutesOf = (items: readonly PrescriptionItem[], index: number): number => {
  const item = items[index];
  if (!item) return 0;
  if (item.dwell.by !== 'clock') return item.dwell.dwellMinutes;
  const next = items[(index + 1) % items.length];
  return next?.dwell.by === 'clock' && next !== item ? clockMinutesApart(item.dwell.at, next.dwell.at) : DAY_MINUTES;
};

type DayTideProps = {
  name: string;
  items: readonly PrescriptionItem[];
  formulary: readonly Solution[];
  /** Which dwells differ from the revision beside it. */
  changed: ReadonlySet<number>;
};

/** A prescribed day as tide: length is time, height is what was filled, one dwell after the other. */
export const DayTide = ({ name, items, formulary, changed }: DayTideProps) => {
  const lengths = items.map((_, index) => minutesOf(items, index));
  const total = Math.max(
    DAY_MINUTES,
    lengths.reduce((sum, one) => sum + one, 0),
  );
  let from = 0;
  const dwells = items.map((item, index) => {
    const start = from;
    const length = ((lengths[index] ?? 0) / total) * WIDTH;
    from += length;
    const top = BASE - (item.fillMl / MOST_ML) * BASE;
    const outline = `M${start} ${BASE}L${start + TURN / 2} ${top}L${Math.max(start + TURN / 2, start + length - TURN / 2)} ${top}L${start + length} ${BASE}`;
    return { item, index, outline, middle: start + length / 2, wide: length > 70 };
  });
  const words = items.map((item) => solutionOf(formulary, item.solutionId)?.strength ?? item.solutionId).join(', ');
  return (
    <div className={styles.tide}>
      <b>{name}</b>
      <svg viewBox={`0 0 ${WIDTH} ${BASE + 2}`} role="img" aria-label={`Revision ${name}: ${words}`}>
        {dwells.map(({ item, index, outline, middle, wide }) => (
          <g key={item.id}>
            <path className={changed.has(index) ? styles.waterNew : styles.water} d={`${outline}Z`} />
            <path className={styles.edge} d={outline} />
            {wide && (
              <text className={changed.has(index) ? styles.strong : undefined} x={middle} y={52} textAnchor="middle">
                {solutionOf(formulary, item.solutionId)?.strength ?? item.solutionId}
              </text>
            )}
          </g>
        ))}
        <path className={styles.edge} d={`M0 ${BASE}H${WIDTH}`} />
      </svg>
    </div>
  );
};
