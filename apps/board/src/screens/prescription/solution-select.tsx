import type { Solution } from '@slackwater/domain';
import styles from './prescription.module.css';

type SolutionSelectProps = {
  label: string;
  /** Empty: nobody has chosen one yet. */
  value: string;
  formulary: readonly Solution[];
  onChange: (solutionId: string) => void;
};

/** A strength of the ward's formulary, as text. */
export const SolutionSelect = ({ label, value, formulary, onChange }: SolutionSelectProps) => (
  <label className={styles.select}>
    {label}
    <select value={value} onChange={(event) => onChange(event.target.value)}>
      {value === '' && <option value="">choose</option>}
      {formulary.map((solution) => (
        <option key={solution.id} value={solution.id}>
          {solution.strength}
        </option>
      ))}
    </select>
  </label>
);
