import type { Telephone } from '@slackwater/domain';
import { Field } from '../../ui/field.tsx';
import { Tick } from '../bedside/shared/tick.tsx';

export type TelephoneDraft = { physician: string; readBack: boolean };

export const NO_TELEPHONE: TelephoneDraft = { physician: '', readBack: false };

/** Who gave the order, once it was read back; null until then. */
export const telephoneOf = ({ physician, readBack }: TelephoneDraft): Telephone | null =>
  readBack && physician.trim() ? { physician: physician.trim(), readBack } : null;

export const missingOfTelephone = ({ physician, readBack }: TelephoneDraft): readonly string[] =>
  [physician.trim() ? null : 'the physician', readBack ? null : 'the read-back'].filter((one) => one !== null);

type TelephoneFieldsProps = {
  draft: TelephoneDraft;
  onChange: (part: Partial<TelephoneDraft>) => void;
  /** The order as it is read back; null while it is not whole. */
  words: string | null;
  countersignHours: number;
};

/** By whose word, and that it was read back. */
export const TelephoneFields = ({ draft, onChange, words, countersignHours }: TelephoneFieldsProps) => (
  <>
    <Field
      label="Physician who gave it"
      value={draft.physician}
      onChange={(physician) => onChange({ physician })}
      maxLength={120}
    />
    <Tick checked={draft.readBack} onChange={(readBack) => onChange({ readBack })}>
      Read back{words === null ? '' : `: “${words}”`}, and heard “yes”.
    </Tick>
    <p className="quiet">To be countersigned within {countersignHours} h.</p>
  </>
);
