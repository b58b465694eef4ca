import type { Account, AccountChange, AccountsView } from '@slackwater/contract';
import { queryOptions, useMutation, useQueryClient } from '@tanstack/react-query';
import { api } from '../../api/client.ts';

export const accountsQuery = queryOptions({
  queryKey: ['accounts'],
  queryFn: ({ signal }) => api.get<AccountsView>('/api/accounts', { signal }),
});

/** Changes an account; the list is fetched again. */
export const useAccountChange = (accountId: string, onDone: () => void) => {
  const queries = useQueryClient();
  return useMutation({
    mutationFn: (change: AccountChange) => api.patch<Account>(`/api/accounts/${accountId}`, change),
    onSuccess: async () => {
      await queries.invalidateQueries({ queryKey: accountsQuery.queryKey });
      onDone();
    },
  });
};
