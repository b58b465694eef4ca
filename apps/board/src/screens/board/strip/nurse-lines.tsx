import type { EpochMs } from '@slackwater/domain/time/instant';
import type { Workload } from '@slackwater/domain/ward/workload';
import { percentOf } from '../../../components/ribbon/axis.ts';
import { movesWithTime } from '../../../components/ribbon/moves-with-time.ts';
import { cx } from '../../../ui/class-names.ts';
import { HourLines } from '../axis.tsx';
import styles from './nurse-lines.module.css';
import { HALF_HOUR_MS, lanesOf, type Slot, slotsOf } from './slots.ts';

type NurseLinesProps = { work: Workload; origin: EpochMs; names: ReadonlyMap<string, string> };

/** From so many in one half hour they are boxed: common practice, the same as in `workload`. */
const CLASH_NURSE = 3;
const CLASH_WARD = 4;

/** A line a nurse, a bar a drain, on the ribbons' own axis; below, the ward's sum per half hour. */
export const NurseLines = ({ work, origin, names }: NurseLinesProps) => {
  const lanes = lanesOf(work.lanes, names);
  const total = slotsOf(work.lanes.flatMap((lane) => lane.toCome));
  return (
    <div
      className={styles.chart}
      role="img"
      aria-label="Drains due per half hour and nurse; the clashes stand in words beside it"
    >
      <div className={styles.labels}>
        {lanes.map(({ name }) => (
          <span key={name}>{name}</span>
        ))}
        <span className={styles.totalLabel}>per half hour</span>
      </div>
      <div className={styles.lines}>
        <HourLines origin={origin} />
        <i className={styles.nowLine} />
        {lanes.map(({ name, slots }) => (
          <div key={name} className={styles.line}>
            <Moving>
              {slots.map((slot) => (
                <Cell key={slot.from} slot={slot} origin={origin} boxed={slot.running + slot.planned >= CLASH_NURSE}>
                  <Bars slot={slot} />
                </Cell>
              ))}
            </Moving>
          </div>
        ))}
        <div className={styles.total}>
          <Moving>
            {total.map((slot) => {
              const count = slot.running + slot.planned;
              const boxed = count >= CLASH_WARD;
              return (
                <Cell key={slot.from} slot={slot} origin={origin} boxed={boxed}>
                  {boxed ? <b>{count}</b> : <Column slot={slot} />}
                </Cell>
              );
            })}
          </Moving>
        </div>
      </div>
    </div>
  );
};

const Moving = ({ children }: { children: React.ReactNode }) => (
  <div ref={movesWithTime} className={styles.moving}>
    {children}
  </div>
);

type CellProps = { slot: Slot; origin: EpochMs; boxed: boolean; children: React.ReactNode };

const Cell = ({ slot, origin, boxed, children }: CellProps) => (
  <i
    className={cx(styles.cell, boxed && styles.boxed)}
    style={{
      left: `${percentOf(slot.from, origin)}%`,
      width: `${percentOf(slot.from + HALF_HOUR_MS, origin) - percentOf(slot.from, origin)}%`,
    }}
  >
    {children}
  </i>
);

const Bars = ({ slot }: { slot: Slot }) => (
  <>
    {Array.from({ length: slot.running + slot.planned }, (_, index) => (
      // biome-ignore lint/suspicious/noArrayIndexKey: bars of one half hour are all alike
      <u key={index} className={index < slot.running ? styles.running : styles.planned} />
    ))}
  </>
);

const Column = ({ slot }: { slot: Slot }) => (
  <>
    {slot.planned > 0 && <u className={styles.planned} style={{ height: 4 * slot.planned }} />}
    {slot.running > 0 && <u className={styles.running} style={{ height: 4 * slot.running }} />}
  </>
);
