import { Button } from '../../../ui/button.tsx';
import { cx } from '../../../ui/class-names.ts';
import styles from './eye-list.module.css';
import type { EyeCheck } from './prepare-draft.ts';

type EyeListProps = {
  checks: readonly { check: EyeCheck; number: string; statement: string }[];
  notSo: readonly EyeCheck[];
  onChange: (notSo: readonly EyeCheck[]) => void;
};

/** Statements by eye and hand. They hold unless somebody says "not so". */
export const EyeList = ({ checks, notSo, onChange }: EyeListProps) => (
  <ul className={styles.list}>
    {checks.map(({ check, number, statement }) => {
      const not = notSo.includes(check);
      return (
        <li key={check}>
          <b>{number}</b>
          <span className={cx(not && styles.not)}>{statement}</span>
          <Button
            aria-pressed={not}
            onPress={() => onChange(not ? notSo.filter((one) => one !== check) : [...notSo, check])}
          >
            Not so<span className="sr">: {statement}</span>
          </Button>
        </li>
      );
    })}
  </ul>
);
