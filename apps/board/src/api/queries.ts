import type { BedsideView, BedsView, Session, WardView } from '@slackwater/contract';
import { queryOptions } from '@tanstack/react-query';
import { api } from './client.ts';

const path = (strings: TemplateStringsArray, ...ids: readonly string[]): string =>
  String.raw({ raw: strings }, ...ids.map(encodeURIComponent));

export const sessionQuery = queryOptions({
  queryKey: ['session'],
  queryFn: ({ signal }) => api.get<Session>('/api/session', { signal }),
  staleTime: Number.POSITIVE_INFINITY,
});

export const wardQuery = (wardId: string) =>
  queryOptions({
    queryKey: ['ward', wardId],
    queryFn: ({ signal }) => api.get<WardView>(path`/api/wards/${wardId}`, { signal }),
    staleTime: 5 * 60_000,
  });

/** Beds and who lies in them: asked anew by whoever is about to give one away. */
export const bedsQuery = (wardId: string) =>
  queryOptions({
    queryKey: ['ward', wardId, 'beds'],
    queryFn: ({ signal }) => api.get<BedsView>(path`/api/wards/${wardId}/beds`, { signal }),
    staleTime: 0,
  });

/** Everything of one patient hangs under `['patient', id]`: the stream invalidates it when an entry of theirs arrives. */
export const patientKey = (patientId: string) => ['patient', patientId] as const;

export const bedsideQuery = (patientId: string) =>
  queryOptions({
    queryKey: [...patientKey(patientId), 'bedside'],
    queryFn: ({ signal }) => api.get<BedsideView>(path`/api/patients/${patientId}/bedside`, { signal }),
  });
