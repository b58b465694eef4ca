import type { SupplyChange } from '@slackwater/domain';
import { useMutation, useQueryClient } from '@tanstack/react-query';
import { draft, sendEntries } from '../../api/entries.ts';
import { wordsOf } from '../../api/problems.ts';
import { wardQuery } from '../../api/queries.ts';

/** Writes changes of products and recalls, and reads the ward anew once they stand. */
export const useSupplyChange = (wardId: string) => {
  const queries = useQueryClient();
  const sending = useMutation({
    mutationFn: (change: SupplyChange) =>
      sendEntries(wardId, [draft('suppliesChanged', { change }, { patientId: null })]),
    onSuccess: () => queries.invalidateQueries({ queryKey: wardQuery(wardId).queryKey }),
  });
  return {
    /** Resolves to whether it stands in the record. */
    change: async (change: SupplyChange): Promise<boolean> => {
      try {
        await sending.mutateAsync(change);
        return true;
      } catch {
        return false;
      }
    },
    pending: sending.isPending,
    trouble: sending.isError ? wordsOf(sending.error) : null,
  };
};
