import type { KeptView } from '@slackwater/contract';
import { queryOptions } from '@tanstack/react-query';
import { api } from '../../api/client.ts';

/** Nobody tells a desk that something was kept on another device, so whoever may release it looks so often. */
const LOOK_AGAIN_MS = 120_000;

/** What was refused of one's own, until one has decided. */
export const myKeptQuery = queryOptions({
  queryKey: ['kept', 'mine'],
  queryFn: ({ signal }) => api.get<KeptView>('/api/kept', { signal }),
});

/** The same of everybody on a ward, for who may release it. */
export const keptOfWardQuery = (wardId: string) =>
  queryOptions({
    queryKey: ['kept', 'ward', wardId],
    queryFn: ({ signal }) => api.get<KeptView>(`/api/wards/${encodeURIComponent(wardId)}/kept`, { signal }),
    refetchInterval: LOOK_AGAIN_MS,
  });
