import { useState } from 'react';
import { useSession } from '../../api/use-session.ts';
import { ROLE_WORDS } from '../../components/role-words.ts';
import { Button } from '../../ui/button.tsx';
import { Choice } from '../../ui/choice.tsx';
import { Dialog } from '../../ui/dialog.tsx';
import { AboutAlert } from './about-alert.tsx';
import type { AlertDialogProps } from './alert-dialog.ts';
import styles from './dialogs.module.css';
import { MinutesChoice } from './minutes-choice.tsx';

/** Gives an alert to somebody who was told, until a time. */
export const HandOnDialog = ({ open, ward, now, entry, onClose }: AlertDialogProps) => {
  const { account } = useSession();
  const most = ward.policy.settings.acknowledgeMostMinutes;
  const [to, setTo] = useState<string | null>(null);
  const [minutes, setMinutes] = useState(most);
  const others = ward.staff.filter(
    ({ accountId, role }) => accountId !== account.id && role !== 'wall' && role !== 'manager',
  );
  return (
    <Dialog title="Hand this alert on" onClose={onClose}>
      <div className={styles.form}>
        <AboutAlert open={open} />
        <Choice
          label="To whom? Tell them first."
          layout="apart"
          value={to}
          onChange={setTo}
          options={others.map(({ accountId, name, role }) => ({
            value: accountId,
            label: name,
            detail: ROLE_WORDS[role],
          }))}
        />
        <MinutesChoice
          label="They have it for"
          most={most}
          now={now}
          zone={ward.zone}
          minutes={minutes}
          onChange={setMinutes}
        />
        <div className={styles.ways}>
          <Button
            tone="main"
            disabledBecause={to === null ? 'Choose to whom' : null}
            onPress={() => {
              if (to !== null) entry.mutate({ act: 'handOn', toAccountId: to, minutes });
              onClose();
            }}
          >
            Hand on
          </Button>
          <Button onPress={onClose}>Back</Button>
        </div>
      </div>
    </Dialog>
  );
};
