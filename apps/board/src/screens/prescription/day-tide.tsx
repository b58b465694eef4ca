import type { PrescriptionItem, Solution } from '@slackwater/domain';
import { solutionOf } from '@slackwater/domain/solution/formulary';
import { clockMinutesApart } from '@slackwater/domain/time/zone';
import { cx } from '../../ui/class-names.ts';
import styles from './prescription.module.css';

const WIDTH = 1000;
const BASE = 66;
const MOST_ML = 3400;
const DAY_MINUTES = 1440;
/** Drawn between two dwells: drain and fill. */
const TURN = 12;
/** A dwell this short has no room for its strength; up to the second, none on a phone. */
const NARROW = 70;
const HALF_WIDE = 130;

const minutesOf = (items: readonly PrescriptionItem[], index: number): number => {
  const item = items[index];
  if (!item) return 0;
  if (item.dwell.by === 'length') return item.dwell.dwellMinutes;
  if (item.dwell.by === 'cycle') return item.dwell.fillMinutes + item.dwell.dwellMinutes + item.dwell.drainMinutes;
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
  const once = lengths.reduce((sum, one) => sum + one, 0);
  const total = Math.max(DAY_MINUTES, once);
  // cycles go round and round: the day is full of them
  const rounds = once > 0 && items.every(({ dwell }) => dwell.by === 'cycle') ? Math.floor(total / once) : 1;
  const drawn = Array.from({ length: rounds }, (_, round) =>
    items.map((item, index) => ({ item, index, round })),
  ).flat();
  let from = 0;
  const dwells = drawn.map(({ item, index, round }) => {
    const start = from;
    const length = ((lengths[index] ?? 0) / total) * WIDTH;
    from += length;
    const top = BASE - (item.fillMl / MOST_ML) * BASE;
    const outline = `M${start} ${BASE}L${start + TURN / 2} ${top}L${Math.max(start + TURN / 2, start + length - TURN / 2)} ${top}L${start + length} ${BASE}`;
    const strength = solutionOf(formulary, item.solutionId)?.strength ?? item.solutionId;
    return { id: `${round} ${item.id}`, index, outline, strength, start, length };
  });
  return (
    <div className={styles.tide}>
      <b>{name}</b>
      <div className={styles.day}>
        <svg
          viewBox={`0 0 ${WIDTH} ${BASE + 2}`}
          preserveAspectRatio="none"
          role="img"
          aria-label={`Revision ${name}: ${dwells
            .slice(0, items.length)
            .map(({ strength }) => strength)
            .join(', ')}`}
        >
          {dwells.map(({ id, index, outline }) => (
            <g key={id}>
              <path className={changed.has(index) ? styles.waterNew : styles.water} d={`${outline}Z`} />
              <path className={styles.edge} d={outline} />
            </g>
          ))}
          <path className={styles.edge} d={`M0 ${BASE}H${WIDTH}`} />
        </svg>
        {dwells
          .filter(({ length }) => length > NARROW)
          .map(({ id, index, strength, start, length }) => (
            <span
              key={id}
              aria-hidden="true"
              className={cx(
                styles.strengthInside,
                changed.has(index) && styles.strong,
                length < HALF_WIDE && styles.desk,
              )}
              style={{ left: `${(start / WIDTH) * 100}%`, width: `${(length / WIDTH) * 100}%` }}
            >
              {strength}
            </span>
          ))}
      </div>
    </div>
  );
};
