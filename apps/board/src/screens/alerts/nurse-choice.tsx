import type { EpochMs } from '@slackwater/domain/time/instant';
import styles from './nurse-choice.module.css';
import { type Open, whose } from './open-alerts.ts';

type NurseChoiceProps = {
  open: readonly Open[];
  now: EpochMs;
  names: ReadonlyMap<string, string>;
  value: string | null;
  onChange: (accountId: string | null) => void;
};

/** One person's alerts: those they have, and those of their patients that nobody has. */
export const NurseChoice = ({ open, now, names, value, onChange }: NurseChoiceProps) => {
  const owners = new Set(open.map((one) => whose(one, now)).filter((id) => id !== null));
  if (value !== null) owners.add(value);
  const people = [...owners].map((id) => ({ id, name: names.get(id) ?? 'Somebody' }));
  return (
    <label className={styles.nurse}>
      <span>Whose</span>
      <select value={value ?? ''} onChange={(event) => onChange(event.target.value || null)}>
        <option value="">Everybody’s</option>
        {people
          .toSorted((a, b) => a.name.localeCompare(b.name))
          .map(({ id, name }) => (
            <option key={id} value={id}>
              {name}
            </option>
          ))}
      </select>
    </label>
  );
};
