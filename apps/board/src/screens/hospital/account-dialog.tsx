import type { Account } from '@slackwater/contract';
import { useState } from 'react';
import { wordsOf } from '../../api/problems.ts';
import { Button } from '../../ui/button.tsx';
import { Choices } from '../../ui/choice.tsx';
import { Dialog } from '../../ui/dialog.tsx';
import { Field } from '../../ui/field.tsx';
import { useAccountChange } from './accounts-query.ts';
import styles from './hospital.module.css';
import { PASSWORD_LEAST } from './password.ts';
import { WardRolesChoice, wardRolesOf } from './ward-roles.tsx';

/** Other roles, a new password, or no sign-in any more. */
export const AccountDialog = ({ account, onClose }: { account: Account; onClose: () => void }) => {
  const change = useAccountChange(account.id, onClose);
  const [roles, setRoles] = useState(() => wardRolesOf(account.roles));
  const [manager, setManager] = useState(account.manager);
  const [password, setPassword] = useState('');
  const [asksToDisable, setAsksToDisable] = useState(false);
  const disabled = account.disabledAt !== null;
  const short = password !== '' && password.length < PASSWORD_LEAST;
  return (
    <Dialog title={account.name} onClose={onClose}>
      <form
        className={styles.form}
        onSubmit={(event) => {
          event.preventDefault();
          if (!short) change.mutate({ roles, manager, ...(password === '' ? {} : { password }) });
        }}
      >
        <WardRolesChoice roles={roles} onChange={setRoles} />
        <Choices
          label="For the hospital"
          values={manager ? ['manager'] : []}
          onChange={(values) => setManager(values.includes('manager'))}
          options={[{ value: 'manager', label: 'manager: accounts, settings, no clinical entry' }]}
        />
        <Field
          label="New password, where it is to change"
          hint={`${PASSWORD_LEAST} characters or more. They are signed out everywhere.`}
          type="password"
          autoComplete="new-password"
          value={password}
          onChange={setPassword}
        />
        {change.isError && (
          <p className={styles.problem} role="alert">
            {wordsOf(change.error)}
          </p>
        )}
        <div className={styles.ways}>
          <Button
            tone="main"
            type="submit"
            disabledBecause={
              change.isPending ? 'Sending' : short ? `The password needs ${PASSWORD_LEAST} characters` : null
            }
          >
            Keep
          </Button>
          {disabled ? (
            <Button onPress={() => change.mutate({ disabled: false })}>Let sign in again</Button>
          ) : (
            !asksToDisable && <Button onPress={() => setAsksToDisable(true)}>Disable</Button>
          )}
          <Button onPress={onClose}>Back</Button>
        </div>
        {asksToDisable && (
          <fieldset className={styles.ways}>
            <legend className="sr">Disable {account.name}</legend>
            <p>{account.name} is signed out everywhere at once, also in the middle of an exchange.</p>
            <Button
              disabledBecause={change.isPending ? 'Sending' : null}
              onPress={() => change.mutate({ disabled: true })}
            >
              Disable now
            </Button>
          </fieldset>
        )}
      </form>
    </Dialog>
  );
};
