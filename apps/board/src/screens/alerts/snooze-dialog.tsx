import { useState } from 'react';
import { Button } from '../../ui/button.tsx';
import { Dialog } from '../../ui/dialog.tsx';
import { AboutAlert } from './about-alert.tsx';
import type { AlertDialogProps } from './alert-dialog.ts';
import styles from './dialogs.module.css';
import { MinutesChoice } from './minutes-choice.tsx';

/** Quiets an alert for a time. It stays on the board, and nobody has it meanwhile. */
export const SnoozeDialog = ({ open, ward, now, entry, onClose }: AlertDialogProps) => {
  const most = ward.policy.settings.acknowledgeMostMinutes;
  const [minutes, setMinutes] = useState(Math.min(10, most));
  return (
    <Dialog title="Snooze this alert" onClose={onClose}>
      <div className={styles.form}>
        <AboutAlert open={open} />
        <p>It stays on the board and calls again at the end. That you snoozed it stands in the record.</p>
        <MinutesChoice label="For" most={most} now={now} zone={ward.zone} minutes={minutes} onChange={setMinutes} />
        <div className={styles.ways}>
          <Button
            tone="main"
            onPress={() => {
              entry.mutate({ act: 'snooze', minutes });
              onClose();
            }}
          >
            Snooze
          </Button>
          <Button onPress={onClose}>Back</Button>
        </div>
      </div>
    </Dialog>
  );
};
