import type { FetchQueryOptions, QueryKey } from '@tanstack/react-query';
import { NoAnswer } from './problems.ts';
import { queryClient } from './query-client.ts';
import { reached } from './reach.ts';

/**
 * What the server says; where it does not answer, what it said last and this device kept, which then stands in the
 * cache as old as it is.
 * @throws NoAnswer where nothing was kept; ApiProblem
 */
export const ensureOrKept = async <T, Key extends QueryKey>(query: FetchQueryOptions<T, Error, T, Key>): Promise<T> => {
  try {
    return await queryClient.ensureQueryData(query);
  } catch (problem) {
    if (!(problem instanceof NoAnswer)) throw problem;
    const { keptView } = await import('../outbox/kept-views.ts');
    const kept = await keptView(query.queryKey);
    if (!kept) throw problem;
    queryClient.setQueryData(query.queryKey as QueryKey, kept.value as never, { updatedAt: kept.heardAt });
    reached.heardBefore(Math.min(reached.current().heardAt, kept.heardAt));
    return kept.value as T;
  }
};
