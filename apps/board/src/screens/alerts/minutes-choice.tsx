import { type EpochMs, plusMinutes } from '@slackwater/domain/time/instant';
import { formatClock, formatMinutes } from '@slackwater/domain/words/numbers';
import { Choice } from '../../ui/choice.tsx';

const STEPS = [5, 10, 15, 20, 30, 45, 60];

type MinutesChoiceProps = {
  label: string;
  most: number;
  now: EpochMs;
  zone: string;
  minutes: number;
  onChange: (minutes: number) => void;
};

/** A time that has an end, at most as long as the ward allows. */
export const MinutesChoice = ({ label, most, now, zone, minutes, onChange }: MinutesChoiceProps) => (
  <Choice
    label={label}
    layout="apart"
    value={minutes}
    onChange={onChange}
    options={[...STEPS.filter((step) => step < most), most].map((step) => ({
      value: step,
      label: formatMinutes(step),
      detail: formatClock(plusMinutes(now, step), zone),
    }))}
  />
);
