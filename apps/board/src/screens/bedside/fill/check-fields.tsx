import { LOOKED_AT, type LookedAt } from '@slackwater/domain/exchange/looked-at';
import { Choice } from '../../../ui/choice.tsx';
import { Field } from '../../../ui/field.tsx';
import { Tick } from '../shared/tick.tsx';

/** What the second person found, as it stands in the form. */
export type CheckDraft = { looked: readonly LookedAt[]; agrees: boolean | null; note: string };
export const EMPTY_CHECK: CheckDraft = { looked: [], agrees: null, note: '' };

const WORDS: Record<LookedAt, string> = {
  patient: 'The patient, by the wristband',
  bag: 'The bag: strength and volume',
  additive: 'The additive, by its label',
  amount: 'The amount, against the order',
};

/** What still has to be looked at or said; null when the check can be signed. */
export const missingOf = ({ looked, agrees, note }: CheckDraft): string | null => {
  if (agrees === null) return 'say whether it agrees';
  if (!agrees) return note.trim() === '' ? 'say what differs' : null;
  const left = LOOKED_AT.filter((one) => !looked.includes(one));
  return left.length === 0 ? null : `not looked at: ${left.join(', ')}`;
};

export const payloadOf = ({ looked, agrees, note }: CheckDraft, askedId: string) => ({
  askedId,
  looked,
  agrees: agrees === true,
  note: note.trim() || null,
});

/** The four things that a second person holds against the order, and the verdict. */
export const CheckFields = ({ draft, onChange }: { draft: CheckDraft; onChange: (draft: CheckDraft) => void }) => (
  <>
    {LOOKED_AT.map((one) => (
      <Tick
        key={one}
        checked={draft.looked.includes(one)}
        onChange={(checked) =>
          onChange({
            ...draft,
            looked: checked ? [...draft.looked, one] : draft.looked.filter((other) => other !== one),
          })
        }
      >
        {WORDS[one]}
      </Tick>
    ))}
    <Choice
      label="All as ordered"
      layout="apart"
      value={draft.agrees === null ? null : draft.agrees ? 'yes' : 'no'}
      onChange={(said) => onChange({ ...draft, agrees: said === 'yes' })}
      options={[
        { value: 'yes', label: 'Yes, as ordered' },
        { value: 'no', label: 'Something differs' },
      ]}
    />
    {draft.agrees === false && (
      <Field
        label="What differs"
        value={draft.note}
        onChange={(note) => onChange({ ...draft, note })}
        maxLength={500}
      />
    )}
  </>
);
