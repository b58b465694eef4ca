import { useState } from 'react';
import { Field } from '../../ui/field.tsx';
import { FormDialog } from '../bedside/shared/form-dialog.tsx';

type WithReasonProps = {
  title: string;
  action: string;
  trouble: string | null;
  pending: boolean;
  onAct: (reason: string) => void;
  onClose: () => void;
};

/** What takes something away that others rely on says why. */
export const WithReason = ({ title, action, trouble, pending, onAct, onClose }: WithReasonProps) => {
  const [reason, setReason] = useState('');
  return (
    <FormDialog
      title={title}
      action={action}
      disabledBecause={pending ? 'being sent' : reason.trim() === '' ? 'the reason is missing' : null}
      onAct={() => onAct(reason.trim())}
      onClose={onClose}
    >
      <Field label="Reason, in words" value={reason} onChange={setReason} maxLength={500} problem={trouble} />
    </FormDialog>
  );
};
