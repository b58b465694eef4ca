import type { MadeWallDisplay, NewWallDisplay, WallDisplaysView } from '@slackwater/contract';
import { queryOptions, useMutation, useQueryClient } from '@tanstack/react-query';
import { api } from '../../api/client.ts';

const address = (wardId: string) => `/api/wards/${encodeURIComponent(wardId)}/wall-displays`;

export const wallDisplaysQuery = (wardId: string) =>
  queryOptions({
    queryKey: ['ward', wardId, 'wall-displays'],
    queryFn: ({ signal }) => api.get<WallDisplaysView>(address(wardId), { signal }),
    staleTime: 0,
  });

/** Makes a display, gives one a new code, and ends one; the list is fetched again. */
export const useWallDisplayChanges = (wardId: string) => {
  const queries = useQueryClient();
  const onSuccess = () => queries.invalidateQueries({ queryKey: wallDisplaysQuery(wardId).queryKey });
  return {
    make: useMutation({
      mutationFn: (display: NewWallDisplay) => api.post<MadeWallDisplay>(address(wardId), display),
      onSuccess,
    }),
    renew: useMutation({
      mutationFn: (id: string) => api.post<MadeWallDisplay>(`${address(wardId)}/${id}/renew`),
      onSuccess,
    }),
    revoke: useMutation({ mutationFn: (id: string) => api.post(`${address(wardId)}/${id}/revoke`), onSuccess }),
  };
};
