import { Choice } from '../../../ui/choice.tsx';
import type { Watched } from './missed-draft.ts';

type WatchedChoiceProps<Seen extends string> = {
  label: string;
  value: Watched<Seen>;
  onChange: (value: Watched<Seen>) => void;
  seen: readonly { value: Seen; label: string }[];
};

/** What was seen, or that nobody watched it: neither is chosen before somebody chooses it. */
export const WatchedChoice = <Seen extends string>({ label, value, onChange, seen }: WatchedChoiceProps<Seen>) => (
  <Choice<Seen | 'notWatched'>
    label={label}
    layout="apart"
    value={value}
    onChange={onChange}
    options={[...seen, { value: 'notWatched', label: 'Nobody watched' }]}
  />
);
