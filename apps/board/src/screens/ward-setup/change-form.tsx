import type { WardView } from '@slackwater/contract';
import type { ReactNode } from 'react';
import { wordsOf } from '../../api/problems.ts';
import { Button } from '../../ui/button.tsx';
import { cx } from '../../ui/class-names.ts';
import styles from './change-form.module.css';
import { useSettingsChange } from './use-settings-change.ts';

type ChangeFormProps = {
  ward: WardView;
  /** Only what differs from what is in force. */
  changes: Readonly<Record<string, number | string>>;
  /** Why nothing of it may be kept, in words; null when it may. */
  mayNot: string | null;
  /** "Keep 2 changes". */
  action: string;
  /** Forgets what was typed. */
  onForget: () => void;
  className: string | undefined;
  children: ReactNode;
};

/** What a ward decides, typed: all changes are kept together or none, and until then they can be undone. */
export const ChangeForm = ({ ward, changes, mayNot, action, onForget, className, children }: ChangeFormProps) => {
  const save = useSettingsChange(ward, onForget);
  const count = Object.keys(changes).length;
  const cannot = mayNot ?? (count === 0 ? 'Nothing is changed' : save.isPending ? 'Sending' : null);
  return (
    <form
      className={cx(styles.form, className)}
      onSubmit={(event) => {
        event.preventDefault();
        if (cannot === null) save.mutate(changes);
      }}
    >
      {children}
      <div className={styles.bar}>
        <Button tone="main" type="submit" disabledBecause={cannot}>
          {action}
        </Button>
        {count > 0 && <Button onPress={onForget}>Undo</Button>}
        {save.isError && <p role="alert">{wordsOf(save.error)}</p>}
      </div>
    </form>
  );
};
