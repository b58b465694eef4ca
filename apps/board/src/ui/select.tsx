import { type ReactNode, useId } from 'react';
import field from './field.module.css';
import styles from './select.module.css';

type SelectProps<Value extends string> = {
  label: ReactNode;
  /** Empty: nothing is chosen. */
  value: Value | '';
  options: readonly { value: Value; label: string }[];
  onChange: (value: Value) => void;
};

/** One of many, by name. Nothing is chosen before a person chooses. */
export const Select = <Value extends string>({ label, value, options, onChange }: SelectProps<Value>) => {
  const id = useId();
  return (
    <div>
      <label htmlFor={id} className={field.label}>
        {label}
      </label>
      <select
        id={id}
        className={styles.select}
        value={value}
        onChange={(event) => onChange(event.target.value as Value)}
      >
        {value === '' && !options.some((option) => option.value === '') && <option value="">choose</option>}
        {options.map((option) => (
          <option key={option.value} value={option.value}>
            {option.label}
          </option>
        ))}
      </select>
    </div>
  );
};
