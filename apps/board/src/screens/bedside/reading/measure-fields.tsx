import { formatMl } from '@slackwater/domain/words/numbers';
import { type ReactNode, useState } from 'react';
import { Button } from '../../../ui/button.tsx';
import { Choice } from '../../../ui/choice.tsx';
import { readDigits } from '../../../ui/digits.ts';
import { Field } from '../../../ui/field.tsx';
import { NumberField } from '../../../ui/number-field.tsx';
import { useBedside } from '../bedside-context.ts';
import markStyles from './bag-marks.module.css';
import { BagMarks, MARK_STEP_ML } from './bag-marks.tsx';
import { Keypad } from './keypad.tsx';
import styles from './measure-fields.module.css';
import { type MeasureDraft, type Measured, ranges } from './measure-form.ts';

type MeasureFieldsProps = {
  draft: MeasureDraft;
  measured: Measured;
  onChange: (part: Partial<MeasureDraft>) => void;
  /** Words of the server for the volume. */
  problem: string | null;
  /** A second drain runs into the same bag: only what it added counts. */
  again?: boolean;
  /** What stands under the result. */
  children?: ReactNode;
};

/** The fields of one measure: scale, bag marks or measuring jug; flush in it or not; what it makes. */
export const MeasureFields = ({ draft, measured, onChange, problem, again = false, children }: MeasureFieldsProps) => {
  const { policy } = useBedside();
  const [onTare, setOnTare] = useState(false);
  const range = ranges(policy.settings);
  const scale = draft.method === 'scale';
  const marks = draft.method === 'bagMarks';
  const volumeMl = draft.volume === '' ? null : Number(draft.volume);
  const keys = scale ? (onTare ? draft.tare : draft.gross) : draft.volume;
  const setKeys = (typed: string) =>
    onChange(scale ? (onTare ? { tare: typed } : { gross: typed }) : { volume: typed });

  return (
    <div className={styles.fields}>
      <div>
        {again && <p className="quiet">Only what this drain brought: what came before is counted already.</p>}
        {scale && (
          <Grams
            onFocus={() => setOnTare(false)}
            label="Full drain bag"
            typed={draft.gross}
            onTyped={(gross) => onChange({ gross })}
            {...range.gross}
            large
            problem={problem}
          />
        )}
        {draft.method === 'jug' && (
          <NumberField
            label="In the measuring jug"
            typed={draft.volume}
            onTyped={(volume) => onChange({ volume })}
            {...range.volume}
            large
            problem={problem}
          />
        )}
        {marks && (
          <>
            <p className="quiet">Touch the bag where the fluid stands; the marks are read to 50 mL.</p>
            <div className={markStyles.steps}>
              <Button
                disabledBecause={volumeMl === null ? 'touch the bag first' : null}
                onPress={() => onChange({ volume: String(Math.max(0, (volumeMl ?? 0) - MARK_STEP_ML)) })}
              >
                50 less
              </Button>
              <Button
                disabledBecause={volumeMl === null ? 'touch the bag first' : null}
                onPress={() => onChange({ volume: String((volumeMl ?? 0) + MARK_STEP_ML) })}
              >
                50 more
              </Button>
            </div>
          </>
        )}
        <div className={styles.sub}>
          {scale ? (
            <Grams
              onFocus={() => setOnTare(true)}
              label={again ? 'Bag before it' : 'Empty bag'}
              typed={draft.tare}
              onTyped={(tare) => onChange({ tare })}
              {...range.tare}
            />
          ) : null}
          <Choice
            label="Flush in it?"
            className={styles.flush}
            value={draft.flushIncluded ? 'yes' : 'no'}
            onChange={(value) => onChange({ flushIncluded: value === 'yes' })}
            options={[
              { value: 'no', label: 'No' },
              { value: 'yes', label: `Yes, ${formatMl(policy.settings.flushMl)}` },
            ]}
          />
        </div>
        {measured.problem && (
          <p className={styles.problem} role="alert">
            {measured.problem}
          </p>
        )}
        <p className={styles.result}>
          <span>Drained</span>
          {measured.volumeMl === null ? (
            <span className={styles.off}>no value yet</span>
          ) : (
            <b>{formatMl(measured.volumeMl)}</b>
          )}
        </p>
        {children}
      </div>
      {marks ? (
        <BagMarks valueMl={volumeMl} onChange={(ml) => onChange({ volume: String(ml) })} />
      ) : (
        <Keypad typed={keys} onTyped={setKeys} />
      )}
    </div>
  );
};

type GramsProps = {
  label: string;
  typed: string;
  onTyped: (typed: string) => void;
  onFocus: () => void;
  least: number;
  most: number;
  unit: string;
  large?: boolean;
  problem?: string | null;
};

/** A weight in digits alone; the keypad types into the one that was touched last. */
const Grams = ({ label, typed, onTyped, onFocus, least, most, unit, large = false, problem = null }: GramsProps) => (
  <Field
    label={label}
    value={typed}
    onChange={onTyped}
    onFocus={onFocus}
    unit={unit}
    large={large}
    inputMode="numeric"
    autoComplete="off"
    problem={readDigits(typed, { least, most, unit }).problem ?? problem}
  />
);
