import type { EntryPage } from '@slackwater/contract';
import { infiniteQueryOptions } from '@tanstack/react-query';
import { api } from '../../api/client.ts';
import { patientKey } from '../../api/queries.ts';

/** A page of the record; the first shows more than a day of an ordinary patient. */
const PAGE = 100;

/** The patient's record, newest first, page after page. */
export const recordQuery = (patientId: string) =>
  infiniteQueryOptions({
    queryKey: [...patientKey(patientId), 'entries', 'all'],
    initialPageParam: null as string | null,
    queryFn: ({ pageParam, signal }) => {
      const cursor = pageParam === null ? '' : `&cursor=${encodeURIComponent(pageParam)}`;
      return api.get<EntryPage>(`/api/patients/${encodeURIComponent(patientId)}/entries?limit=${PAGE}${cursor}`, {
        signal,
      });
    },
    getNextPageParam: (page) => page.nextCursor,
  });
