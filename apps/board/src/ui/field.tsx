import { type ComponentProps, type ReactNode, useId } from 'react';
import { cx } from './class-names.ts';
import styles from './field.module.css';

type FieldProps = Omit<ComponentProps<'input'>, 'onChange' | 'value' | 'id'> & {
  label: ReactNode;
  value: string;
  onChange: (value: string) => void;
  /** Stands beside the value: `mL`, `min`. */
  unit?: string | undefined;
  /** What may be written, in words, before anything is wrong. */
  hint?: ReactNode;
  /** What is wrong: names the value and the allowed range. What was typed stays. */
  problem?: string | null | undefined;
  /** Numerals that are read from a step away. */
  large?: boolean;
};

/** A line to type in. A problem stands under it as a strip of ink and is read out with it. */
export const Field = ({ label, value, onChange, unit, hint, problem, large, className, ...rest }: FieldProps) => {
  const id = useId();
  const hintId = hint ? `${id}-hint` : undefined;
  const problemId = problem ? `${id}-problem` : undefined;
  return (
    <div className={cx(styles.field, className)}>
      <label htmlFor={id} className={styles.label}>
        {label}
      </label>
      <span className={cx(styles.box, large && styles.large, problem && styles.wrong)}>
        <input
          {...rest}
          id={id}
          value={value}
          onChange={(event) => onChange(event.target.value)}
          aria-invalid={problem ? true : undefined}
          aria-describedby={cx(hintId, problemId) || undefined}
        />
        {unit ? <i className={styles.unit}>{unit}</i> : null}
      </span>
      {problem ? (
        <p id={problemId} className={styles.problem} role="alert">
          {problem}
        </p>
      ) : null}
      {hint ? (
        <p id={hintId} className={styles.hint}>
          {hint}
        </p>
      ) : null}
    </div>
  );
};
