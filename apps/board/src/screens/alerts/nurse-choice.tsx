import type { EpochMs } from '@slackwater/domain/time/instant';
import { Select } from '../../ui/select.tsx';
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
  const people = [...owners].map((id) => ({ value: id, label: names.get(id) ?? 'Somebody' }));
  return (
    <Select
      label="Whose"
      value={value ?? ''}
      options={[{ value: '', label: 'Everybody’s' }, ...people.toSorted((a, b) => a.label.localeCompare(b.label))]}
      onChange={(id) => onChange(id || null)}
    />
  );
};
