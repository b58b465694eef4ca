import type { Account, NewAccount } from '@slackwater/contract';
import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { api } from '../../api/client.ts';
import { newId } from '../../api/ids.ts';
import { ApiProblem, wordsOf } from '../../api/problems.ts';
import { Button } from '../../ui/button.tsx';
import { Choices } from '../../ui/choice.tsx';
import { Dialog } from '../../ui/dialog.tsx';
import { Field } from '../../ui/field.tsx';
import { accountsQuery } from './accounts-query.ts';
import styles from './hospital.module.css';
import { PASSWORD_LEAST } from './password.ts';
import { type WardRoles, WardRolesChoice } from './ward-roles.tsx';

export const NewAccountDialog = ({ onClose }: { onClose: () => void }) => {
  const queries = useQueryClient();
  // made once, so that a request sent twice makes no second account
  const [id] = useState(newId);
  const [name, setName] = useState('');
  const [login, setLogin] = useState('');
  const [password, setPassword] = useState('');
  const [manager, setManager] = useState(false);
  const [roles, setRoles] = useState<WardRoles>([]);
  const make = useMutation({
    mutationFn: (account: NewAccount) => api.post<Account>('/api/accounts', account),
    onSuccess: async () => {
      await queries.invalidateQueries({ queryKey: accountsQuery.queryKey });
      onClose();
    },
  });
  const problemOf = (field: string): string | null =>
    (make.error instanceof ApiProblem && make.error.errors.find((error) => error.field.endsWith(field))?.message) ||
    null;
  const missing =
    name.trim() === ''
      ? 'Write the name'
      : login === ''
        ? 'Write what they sign in as'
        : password.length < PASSWORD_LEAST
          ? `The password needs ${PASSWORD_LEAST} characters`
          : null;
  return (
    <Dialog title="New account" onClose={onClose}>
      <form
        className={styles.form}
        onSubmit={(event) => {
          event.preventDefault();
          if (missing === null) make.mutate({ id, name: name.trim(), login, password, manager, roles });
        }}
      >
        <Field label="Name" value={name} onChange={setName} problem={problemOf('name')} autoComplete="off" />
        <Field
          label="Signs in as"
          hint="Lower-case letters, digits, dots, hyphens"
          value={login}
          onChange={setLogin}
          problem={problemOf('login')}
          autoComplete="off"
          autoCapitalize="none"
        />
        <Field
          label="First password"
          hint={`${PASSWORD_LEAST} characters or more; length is what counts`}
          type="password"
          value={password}
          onChange={setPassword}
          problem={problemOf('password')}
          autoComplete="new-password"
        />
        <WardRolesChoice roles={roles} onChange={setRoles} />
        <Choices
          label="For the hospital"
          values={manager ? ['manager'] : []}
          onChange={(values) => setManager(values.includes('manager'))}
          options={[{ value: 'manager', label: 'manager: accounts, settings, no clinical entry' }]}
        />
        {make.isError && (
          <p className={styles.problem} role="alert">
            {wordsOf(make.error)}
          </p>
        )}
        <div className={styles.ways}>
          <Button tone="main" type="submit" disabledBecause={make.isPending ? 'Sending' : missing}>
            Make the account
          </Button>
          <Button onPress={onClose}>Back</Button>
        </div>
      </form>
    </Dialog>
  );
};
