import type { Account } from '@slackwater/contract';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { wordsOf } from '../../api/problems.ts';
import { useSession } from '../../api/use-session.ts';
import { ROLE_WORDS } from '../../components/role-words.ts';
import { Button } from '../../ui/button.tsx';
import { Table } from '../../ui/table.tsx';
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
      <Table
        rows={accounts.data?.accounts ?? []}
        keyOf={({ id }) => id}
        columns={[
          { head: 'Name', of: ({ name }) => name },
          { head: 'Signs in as', of: ({ login }) => login },
          { head: 'Roles', of: (account) => rolesOf(account, wardNames) },
          { head: 'State', of: ({ disabledAt }) => (disabledAt === null ? 'may sign in' : 'disabled') },
          {
            head: 'Change',
            hideHead: true,
            of: (account) =>
              account.id === me.id ? (
                'you'
              ) : (
                <Button tone="text" onPress={() => setOpen(account)} aria-label={`Change ${account.name}`}>
                  Change
                </Button>
              ),
          },
        ]}
      />
      <div className={styles.add}>
        <Button onPress={() => setOpen('new')}>New account</Button>
      </div>
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
