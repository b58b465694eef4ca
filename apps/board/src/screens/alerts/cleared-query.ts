import type { ClearedAlertsView } from '@slackwater/contract';
import { useQuery } from '@tanstack/react-query';
import { api } from '../../api/client.ts';

const LOOKED_AT_EVERY_MS = 30_000;

/** What ended since the ward day began, looked at again while the page is shown. */
export const useCleared = (wardId: string) =>
  useQuery({
    queryKey: ['ward', wardId, 'alerts cleared'],
    queryFn: ({ signal }) =>
      api.get<ClearedAlertsView>(`/api/wards/${encodeURIComponent(wardId)}/alerts/cleared`, { signal }),
    refetchInterval: LOOKED_AT_EVERY_MS,
    refetchOnMount: 'always',
  });
