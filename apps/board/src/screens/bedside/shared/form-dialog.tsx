import type { ReactNode } from 'react';
import { Button } from '../../../ui/button.tsx';
import { Dialog } from '../../../ui/dialog.tsx';
import styles from './form.module.css';

type FormDialogProps = {
  title: ReactNode;
  children: ReactNode;
  /** The one filled action, and why it may not be pressed yet. */
  action: ReactNode;
  disabledBecause: string | null;
  onAct: () => void;
  onClose: () => void;
  closeWords?: string;
};

/** A question over the screen: fields, one filled action that says what is missing, a way back. */
export const FormDialog = ({
  title,
  children,
  action,
  disabledBecause,
  onAct,
  onClose,
  closeWords = 'Back',
}: FormDialogProps) => (
  <Dialog title={title} onClose={onClose}>
    <div className={styles.form}>
      {children}
      <div className={styles.acts}>
        <Button tone="main" onPress={onAct} disabledBecause={disabledBecause}>
          {action}
        </Button>
        <Button onPress={onClose}>{closeWords}</Button>
      </div>
    </div>
  </Dialog>
);
