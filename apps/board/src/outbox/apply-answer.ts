import type { EntriesAnswer } from '@slackwater/contract';
import { bedsideQuery, patientKey } from '../api/queries.ts';
import { queryClient } from '../api/query-client.ts';

/** Shows what the record answered at once: the bedside as it is there now; the rest of the patient is asked for anew. */
export const applyAnswer = (patientId: string, { bedside, position }: EntriesAnswer): void => {
  const { queryKey } = bedsideQuery(patientId);
  if (bedside) queryClient.setQueryData(queryKey, (old) => (old ? { ...old, state: bedside, position } : old));
  void queryClient.invalidateQueries({
    queryKey: patientKey(patientId),
    predicate: (query) => query.queryKey[2] !== 'bedside',
  });
};
