import type { ReactNode } from 'react';
import { readDigits } from './digits.ts';
import { Field } from './field.tsx';

type NumberFieldProps = {
  label: ReactNode;
  /** What was typed, as typed: it survives a refusal and a reload. */
  typed: string;
  onTyped: (typed: string) => void;
  least: number;
  most: number;
  unit: string;
  hint?: ReactNode;
  /** A problem of the server's for this field; shown when the digits themselves are fine. */
  problem?: string | null | undefined;
  large?: boolean;
  autoFocus?: boolean;
};

/** A whole number in digits alone. The caller reads the value with `readDigits` and the same range. */
export const NumberField = ({ typed, onTyped, least, most, unit, problem, ...rest }: NumberFieldProps) => (
  <Field
    {...rest}
    value={typed}
    onChange={onTyped}
    unit={unit}
    inputMode="numeric"
    autoComplete="off"
    problem={readDigits(typed, { least, most, unit }).problem ?? problem}
  />
);
