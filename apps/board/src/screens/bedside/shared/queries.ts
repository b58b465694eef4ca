import type { EntryPage } from '@slackwater/contract';
import { queryOptions } from '@tanstack/react-query';
import { api } from '../../../api/client.ts';
import { bedsideQuery, patientKey, wardQuery } from '../../../api/queries.ts';
import { queryClient } from '../../../api/query-client.ts';

/** Enough for the visit under way and the one before it. */
const RECENT = 80;

/** The patient's newest entries, newest first: what the staff says of each block, and what may be undone. */
export const recentEntriesQuery = (patientId: string) =>
  queryOptions({
    queryKey: [...patientKey(patientId), 'entries', 'recent'],
    queryFn: ({ signal }) =>
      api.get<EntryPage>(`/api/patients/${encodeURIComponent(patientId)}/entries?limit=${RECENT}`, { signal }),
  });

/** Loads what every screen of one patient stands on: the bedside, and the ward's own rules. */
export const loadPatient = async ({ params }: { params: Readonly<Record<string, string | undefined>> }) => {
  const view = await queryClient.ensureQueryData(bedsideQuery(params.id ?? ''));
  await queryClient.ensureQueryData(wardQuery(view.wardId));
  return null;
};

/** The same with the newest entries. */
export const loadPatientWithEntries = async (args: { params: Readonly<Record<string, string | undefined>> }) => {
  await Promise.all([loadPatient(args), queryClient.ensureQueryData(recentEntriesQuery(args.params.id ?? ''))]);
  return null;
};
