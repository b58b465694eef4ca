import { useState } from 'react';
import { Button } from '../../ui/button.tsx';
import { Dialog } from '../../ui/dialog.tsx';
import { Field } from '../../ui/field.tsx';
import { AboutAlert } from './about-alert.tsx';
import type { AlertDialogProps } from './alert-dialog.ts';
import styles from './dialogs.module.css';

/** Clears an alert by hand, with the reason. Most clear by themselves once what they say is no longer so. */
export const ClearDialog = ({ open, entry, onClose }: AlertDialogProps) => {
  const [reason, setReason] = useState('');
  return (
    <Dialog title="Clear this alert" onClose={onClose}>
      <form
        className={styles.form}
        onSubmit={(event) => {
          event.preventDefault();
          if (reason.trim() === '') return;
          entry.mutate({ act: 'clear', reason: reason.trim() });
          onClose();
        }}
      >
        <AboutAlert open={open} />
        <p>
          An alert clears by itself once what it says is no longer so. Clear it by hand only where it says a wrong
          thing.
        </p>
        <Field label="Why is it cleared?" value={reason} onChange={setReason} maxLength={500} autoFocus />
        <div className={styles.ways}>
          <Button tone="main" type="submit" disabledBecause={reason.trim() === '' ? 'Write the reason first' : null}>
            Clear
          </Button>
          <Button onPress={onClose}>Back</Button>
        </div>
      </form>
    </Dialog>
  );
};
