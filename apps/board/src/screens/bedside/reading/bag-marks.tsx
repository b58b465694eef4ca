import { formatWhole } from '@slackwater/domain/words/numbers';
import type { KeyboardEvent, PointerEvent } from 'react';
import { cx } from '../../../ui/class-names.ts';
import styles from './bag-marks.module.css';

/** Marks are read to half a hundred. */
export const MARK_STEP_ML = 50;
const MOST_ML = 3000;

const KEYS: Readonly<Record<string, number>> = {
  ArrowUp: MARK_STEP_ML,
  ArrowRight: MARK_STEP_ML,
  ArrowDown: -MARK_STEP_ML,
  ArrowLeft: -MARK_STEP_ML,
  PageUp: 500,
  PageDown: -500,
};

const clamp = (ml: number): number => Math.min(MOST_ML, Math.max(0, ml));

/** The drain bag drawn with its marks: one touch where the fluid stands. Nothing stands in it until it is touched. */
export const BagMarks = ({ valueMl, onChange }: { valueMl: number | null; onChange: (ml: number) => void }) => {
  const touch = (event: PointerEvent<HTMLDivElement>) => {
    const box = event.currentTarget.getBoundingClientRect();
    const share = 1 - (event.clientY - box.top) / box.height;
    onChange(clamp(Math.round((share * MOST_ML) / MARK_STEP_ML) * MARK_STEP_ML));
  };
  const press = (event: KeyboardEvent) => {
    const step = KEYS[event.key];
    if (step === undefined) return;
    event.preventDefault();
    onChange(clamp((valueMl ?? 0) + step));
  };
  const at = (ml: number) => `${100 - (ml / MOST_ML) * 100}%`;
  return (
    <div
      className={styles.bag}
      role="slider"
      tabIndex={0}
      aria-label="Fluid in the bag by its marks, mL"
      aria-valuemin={0}
      aria-valuemax={MOST_ML}
      aria-valuenow={valueMl ?? 0}
      aria-valuetext={valueMl === null ? 'not read yet' : `${valueMl} mL`}
      onPointerDown={(event) => {
        event.currentTarget.setPointerCapture(event.pointerId);
        touch(event);
      }}
      onPointerMove={(event) => {
        if (event.currentTarget.hasPointerCapture(event.pointerId)) touch(event);
      }}
      onKeyDown={press}
    >
      {valueMl !== null && <i className={styles.water} style={{ top: at(valueMl) }} />}
      {Array.from({ length: MOST_ML / 100 + 1 }, (_, index) => index * 100).map((ml) => (
        <i key={ml} className={cx(styles.mark, ml % 500 === 0 && styles.long)} style={{ top: at(ml) }} />
      ))}
      {[500, 1000, 1500, 2000, 2500].map((ml) => (
        <span key={ml} style={{ top: at(ml) }}>
          {formatWhole(ml)}
        </span>
      ))}
    </div>
  );
};
