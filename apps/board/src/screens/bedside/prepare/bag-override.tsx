import type { Override } from '@slackwater/domain';
import { useDraft } from '../../../drafts/use-draft.ts';
import { Field } from '../../../ui/field.tsx';
import { useBedside } from '../bedside-context.ts';
import { FormDialog } from '../shared/form-dialog.tsx';

type BagOverrideProps = { title: string; onClose: () => void; onOverride: (override: Override) => void };

/** Going on, by right of role, with a bag that its check stops: why, and by whose word. It stands in the record for ever. */
export const BagOverride = ({ title, onClose, onOverride }: BagOverrideProps) => {
  const { patientId, session } = useBedside();
  const [typed, setTyped, forget] = useDraft(`bag-override:${patientId}`, { physician: '', reason: '' });
  return (
    <FormDialog
      title={`Use it all the same? ${title}`}
      action={`Sign as ${session.account.name}: use this bag`}
      disabledBecause={typed.reason.trim() === '' ? 'the reason is missing' : null}
      onAct={() => {
        forget();
        onOverride({ reason: typed.reason.trim(), physician: typed.physician.trim() || null });
      }}
      onClose={onClose}
      closeWords="Back, another bag"
    >
      <p>
        <b>Local policy decides whether such a bag may be used at all</b>, and it may say never. This tool judges
        nothing here: it keeps who decided, when and why, in the record and in the audit.
      </p>
      <Field
        label="Reason, in words"
        value={typed.reason}
        onChange={(reason) => setTyped({ ...typed, reason })}
        maxLength={500}
      />
      <Field
        label="Physician, if one said so"
        value={typed.physician}
        onChange={(physician) => setTyped({ ...typed, physician })}
        maxLength={120}
      />
    </FormDialog>
  );
};
