import type { Override } from '@slackwater/domain';
import type { ReactNode } from 'react';
import { useDraft } from '../../../drafts/use-draft.ts';
import { Field } from '../../../ui/field.tsx';
import { useBedside } from '../bedside-context.ts';
import { FormDialog } from './form-dialog.tsx';

type OverrideDialogProps = {
  /** Names the form among the patient's drafts. */
  draftKey: string;
  title: string;
  /** What is signed: "use this bag". */
  act: string;
  /** What has to be thought of first. */
  children: ReactNode;
  closeWords: string;
  onClose: () => void;
  onOverride: (override: Override) => void;
};

/** Going on, by right of role, against a stop: why, and by whose word. It stands in the record for ever. */
export const OverrideDialog = ({
  draftKey,
  title,
  act,
  children,
  closeWords,
  onClose,
  onOverride,
}: OverrideDialogProps) => {
  const { patientId, session } = useBedside();
  const [typed, setTyped, forget] = useDraft(`${draftKey}:${patientId}`, { physician: '', reason: '' });
  return (
    <FormDialog
      title={title}
      action={`Sign as ${session.account.name}: ${act}`}
      disabledBecause={typed.reason.trim() === '' ? 'the reason is missing' : null}
      onAct={() => {
        forget();
        onOverride({ reason: typed.reason.trim(), physician: typed.physician.trim() || null });
      }}
      onClose={onClose}
      closeWords={closeWords}
    >
      {children}
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
