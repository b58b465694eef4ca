import type { DrainLearningView, EntryPage } from '@slackwater/contract';
import { queryOptions } from '@tanstack/react-query';
import { api } from '../../../api/client.ts';
import { ensureOrKept } from '../../../api/ensure-or-kept.ts';
import { bedsideQuery, patientKey, wardQuery } from '../../../api/queries.ts';

/** Enough for the visit under way and the one before it. */
const RECENT = 80;

/** The patient's newest entries, newest first: what the staff says of each block, and what may be undone. */
export const recentEntriesQuery = (patientId: string) =>
  queryOptions({
    queryKey: [...patientKey(patientId), 'entries', 'recent'],
    queryFn: ({ signal }) =>
      api.get<EntryPage>(`/api/patients/${encodeURIComponent(patientId)}/entries?limit=${RECENT}`, { signal }),
  });

/** What the patient's earlier dwells taught about the next drain. */
export const drainLearningQuery = (patientId: string) =>
  queryOptions({
    queryKey: [...patientKey(patientId), 'drain-learning'],
    queryFn: ({ signal }) =>
      api.get<DrainLearningView>(`/api/patients/${encodeURIComponent(patientId)}/drain-learning`, { signal }),
  });

/** Loads what every screen of one patient stands on: the bedside, and the ward's own rules. */
export const loadPatient = async ({ params }: { params: Readonly<Record<string, string | undefined>> }) => {
  const view = await ensureOrKept(bedsideQuery(params.id ?? ''));
  await ensureOrKept(wardQuery(view.wardId));
  return null;
};

/** The same with the newest entries, and what is learned from earlier dwells: without that the bedside still opens. */
export const loadPatientWithEntries = async (args: { params: Readonly<Record<string, string | undefined>> }) => {
  const id = args.params.id ?? '';
  await Promise.all([
    loadPatient(args),
    ensureOrKept(recentEntriesQuery(id)),
    ensureOrKept(drainLearningQuery(id)).catch(() => null),
  ]);
  return null;
};
