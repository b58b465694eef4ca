import type { Account } from '@slackwater/contract';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { wordsOf } from '../../api/problems.ts';
import { useSession } from '../../api/use-session.ts';
import { ROLE_WORDS } from '../../components/role-words.ts';
import { Button } from '../../ui/button.tsx';
import { AccountDialog } from './account-dialog.tsx';
import { accountsQuery } from './accounts-query.ts';
import styles from './hospital.module.css';
import { NewAccountDialog } from './new-account-dialog.tsx';

/** Everybody who may sign in, with their roles. */
export const Accounts = () => {
  const accounts = useQuery(accountsQuery);
  const { account: me, roles } = useSession();
  const [open, setOpen] = useState<Account | 'new' | null>(null);
  const wardNames = new Map(roles.map(({ wardId, wardName }) => [wardId, wardName]));
  return (
    <section aria-label="Accounts">
      <h2>Accounts</h2>
      {accounts.isError && <p role="alert">{wordsOf(accounts.error)}</p>}
      <table className={styles.table}>
        <thead>
          <tr>
            <th scope="col">Name</th>
            <th scope="col">Signs in as</th>
            <th scope="col">Roles</th>
            <th scope="col">State</th>
            <th scope="col">
              <span className="sr">Change</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {accounts.data?.accounts.map((account) => (
            <tr key={account.id}>
              <th scope="row">{account.name}</th>
              <td>{account.login}</td>
              <td>{rolesOf(account, wardNames)}</td>
              <td>{account.disabledAt === null ? 'may sign in' : 'disabled'}</td>
              <td>
                {account.id === me.id ? (
                  'you'
                ) : (
                  <Button tone="text" onPress={() => setOpen(account)} aria-label={`Change ${account.name}`}>
                    Change
                  </Button>
                )}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <Button onPress={() => setOpen('new')}>New account</Button>
      {open === 'new' && <NewAccountDialog onClose={() => setOpen(null)} />}
      {open !== null && open !== 'new' && <AccountDialog account={open} onClose={() => setOpen(null)} />}
    </section>
  );
};

const rolesOf = ({ manager, roles }: Account, wardNames: ReadonlyMap<string, string>): string =>
  [
    ...(manager ? ['manager'] : []),
    ...roles.map(({ wardId, role }) => `${ROLE_WORDS[role]}, ${wardNames.get(wardId) ?? wardId}`),
  ].join(' · ') || 'none';
