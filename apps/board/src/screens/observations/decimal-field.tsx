import { Field } from '../../ui/field.tsx';
import { readDecimal } from './read-decimal.ts';

type DecimalFieldProps = {
  label: string;
  typed: string;
  onTyped: (typed: string) => void;
  least: number;
  most: number;
  unit: string;
};

/** A number that may carry a decimal point. The caller reads it with `readDecimal` and the same range. */
export const DecimalField = ({ label, typed, onTyped, ...range }: DecimalFieldProps) => (
  <Field
    label={label}
    value={typed}
    onChange={onTyped}
    unit={range.unit}
    inputMode="decimal"
    autoComplete="off"
    problem={readDecimal(typed, range).problem}
  />
);
