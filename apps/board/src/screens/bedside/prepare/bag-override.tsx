import type { Override } from '@slackwater/domain';
import { useDraft } from '../../../drafts/use-draft.ts';
import { Field } from '../../../ui/field.tsx';
import { useBedside } from '../bedside-context.ts';
import { FormDialog } from '../shared/form-dialog.tsx';

type BagOverrideProps = { title: string; onClose: () => void; onOverride: (override: Override) => void };

/** Going on with a bag that is not the prescribed one: by whose word, and why. It stands in the record for ever. */
export const BagOverride = ({ title, onClose, onOverride }: BagOverrideProps) => {
  const { patientId, session, mayDo } = useBedside();
  const [typed, setTyped, forget] = useDraft(`bag-override:${patientId}`, { physician: '', reason: '' });
  // A nurse goes on by a physician's word; a charge nurse or a physician by their own.
  const needsPhysician = !mayDo('overrideGuard');
  const missing =
    typed.reason.trim() === ''
      ? 'the reason is missing'
      : needsPhysician && typed.physician.trim() === ''
        ? 'the physician is missing'
        : null;
  return (
    <FormDialog
      title={`Use it all the same? ${title}`}
      action={`Sign as ${session.account.name}: use this bag`}
      disabledBecause={missing}
      onAct={() => {
        forget();
        onOverride({ reason: typed.reason.trim(), physician: typed.physician.trim() || null });
      }}
      onClose={onClose}
    >
      <Field
        label="Reason, in words"
        value={typed.reason}
        onChange={(reason) => setTyped({ ...typed, reason })}
        maxLength={500}
      />
      <Field
        label={needsPhysician ? 'Physician who said so' : 'Physician, if one said so'}
        value={typed.physician}
        onChange={(physician) => setTyped({ ...typed, physician })}
        maxLength={120}
      />
    </FormDialog>
  );
};
