import { Choice } from '../../../ui/choice.tsx';
import { Field } from '../../../ui/field.tsx';
import styles from './instant-field.module.css';
import { readInstant, type TypedInstant } from './typed-instant.ts';

type InstantFieldProps = { label: string; typed: TypedInstant; onTyped: (typed: TypedInstant) => void; zone: string };

/** A date and a clock time of the ward, typed. */
export const InstantField = ({ label, typed, onTyped, zone }: InstantFieldProps) => {
  const { problem, two } = readInstant(typed, zone);
  return (
    <fieldset className={styles.instant}>
      <legend>{label}</legend>
      <Field
        label="Date"
        value={typed.date}
        onChange={(date) => onTyped({ ...typed, date })}
        placeholder="2026-11-25"
        inputMode="numeric"
        autoComplete="off"
      />
      <Field
        label="Time"
        value={typed.clock}
        onChange={(clock) => onTyped({ ...typed, clock })}
        placeholder="14:05"
        inputMode="numeric"
        autoComplete="off"
      />
      {two && (
        <Choice
          label="Which of the two"
          value={typed.which}
          onChange={(which) => onTyped({ ...typed, which })}
          options={[
            { value: 'earlier', label: 'before the clocks went back' },
            { value: 'later', label: 'after' },
          ]}
        />
      )}
      {problem && !two && (
        <p className={styles.problem} role="alert">
          {problem}
        </p>
      )}
    </fieldset>
  );
};
