import { type ReactNode, useId } from 'react';
import styles from './choice.module.css';
import { cx } from './class-names.ts';

export type Option<Value extends string | number> = { value: Value; label: ReactNode; detail?: ReactNode };

type Common<Value extends string | number> = {
  label: ReactNode;
  options: readonly Option<Value>[];
  /** `joined`: one strip of few short words. `apart`: a list that wraps. */
  layout?: 'joined' | 'apart';
  hideLabel?: boolean;
  className?: string | undefined;
};

type ChoiceProps<Value extends string | number> = Common<Value> & {
  value: Value | null;
  onChange: (value: Value) => void;
};

/** One of several. The chosen one is filled with ink, never with a colour. */
export const Choice = <Value extends string | number>({
  label,
  options,
  value,
  onChange,
  layout = 'joined',
  hideLabel,
  className,
}: ChoiceProps<Value>) => {
  const name = useId();
  return (
    <fieldset className={cx(styles.choice, className)}>
      <legend className={hideLabel ? 'sr' : styles.legend}>{label}</legend>
      <div className={styles[layout]}>
        {options.map((option) => (
          <label key={option.value} className={styles.option}>
            <input
              type="radio"
              className="sr"
              name={name}
              checked={option.value === value}
              onChange={() => onChange(option.value)}
            />
            <span>{option.label}</span>
            {option.detail ? <small>{option.detail}</small> : null}
          </label>
        ))}
      </div>
    </fieldset>
  );
};

type ChoicesProps<Value extends string | number> = Common<Value> & {
  values: readonly Value[];
  onChange: (values: readonly Value[]) => void;
};

/** Any number of several. */
export const Choices = <Value extends string | number>({
  label,
  options,
  values,
  onChange,
  layout = 'apart',
  hideLabel,
  className,
}: ChoicesProps<Value>) => (
  <fieldset className={cx(styles.choice, className)}>
    <legend className={hideLabel ? 'sr' : styles.legend}>{label}</legend>
    <div className={styles[layout]}>
      {options.map((option) => (
        <label key={option.value} className={styles.option}>
          <input
            type="checkbox"
            className="sr"
            checked={values.includes(option.value)}
            onChange={(event) =>
              onChange(
                event.target.checked ? [...values, option.value] : values.filter((value) => value !== option.value),
              )
            }
          />
          <span>{option.label}</span>
          {option.detail ? <small>{option.detail}</small> : null}
        </label>
      ))}
    </div>
  </fieldset>
);
