import type { Solution } from '@slackwater/domain';
import { Select } from '../../ui/select.tsx';

type SolutionSelectProps = {
  label: string;
  /** Empty: nobody has chosen one yet. */
  value: string;
  formulary: readonly Solution[];
  onChange: (solutionId: string) => void;
};

/** A strength of the ward's formulary, as text. */
export const SolutionSelect = ({ formulary, ...rest }: SolutionSelectProps) => (
  <Select {...rest} options={formulary.map(({ id, strength }) => ({ value: id, label: strength }))} />
);
