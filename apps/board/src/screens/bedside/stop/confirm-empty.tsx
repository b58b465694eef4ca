import type { EmptyReason } from '@slackwater/domain';
import { serverClock } from '../../../api/clock.ts';
import { useDraft } from '../../../drafts/use-draft.ts';
import { Choice } from '../../../ui/choice.tsx';
import { Field } from '../../../ui/field.tsx';
import { useBedside } from '../bedside-context.ts';
import { act } from '../model/batch.ts';
import { FormDialog } from '../shared/form-dialog.tsx';

const REASONS: readonly { value: EmptyReason; label: string }[] = [
  { value: 'secondDrainUnder100Ml', label: 'Second drain under 100 mL after a turn' },
  { value: 'imaging', label: 'Imaging' },
  { value: 'physician', label: 'The physician says so' },
];

/** Only a person can say that the cavity is empty: nothing else resets what is probably inside. */
export const ConfirmEmpty = () => {
  const { patientId, state, record, sending, back, session } = useBedside();
  const [draft, setDraft, forget] = useDraft(`confirm-empty:${patientId}`, {
    reason: null as EmptyReason | null,
    note: '',
  });
  const missing = [draft.reason ? null : 'the reason', draft.note.trim() ? null : 'words'].filter(
    (one) => one !== null,
  );
  const confirm = async () => {
    if (!draft.reason) return;
    const payload = { reason: draft.reason, note: draft.note.trim() };
    if (await record([act('cavityConfirmedEmpty', payload, serverClock.now())], state.visit?.id ?? null)) {
      forget();
      back();
    }
  };
  return (
    <FormDialog
      title="Confirm that the cavity is empty"
      action={`Confirm and sign as ${session.account.name}`}
      disabledBecause={sending ? 'being sent' : missing.length > 0 ? `missing: ${missing.join(', ')}` : null}
      onAct={() => void confirm()}
      onClose={back}
    >
      <Choice
        label="How do you know"
        layout="apart"
        value={draft.reason}
        onChange={(reason) => setDraft({ ...draft, reason })}
        options={REASONS}
      />
      <Field
        label="What was seen or said"
        value={draft.note}
        onChange={(note) => setDraft({ ...draft, note })}
        maxLength={2000}
      />
    </FormDialog>
  );
};
