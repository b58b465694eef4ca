import type { EntriesAnswer, EntryBatch } from '@slackwater/contract';
import type { Draft, EntryKind, EpochMs, Payloads } from '@slackwater/domain';
import { api } from './client.ts';
import { serverClock } from './clock.ts';
import { newId } from './ids.ts';

type About = {
  patientId: string | null;
  visitId?: string | null;
  /** Default: the ward's time now. */
  happenedAt?: EpochMs;
  /** Steps only: the last step that the author saw. */
  after?: string | null;
  /** Default: a new one. Keep it when the same entry is sent again. */
  id?: string;
};

/** An entry as its author writes it. */
export const draft = <K extends EntryKind>(kind: K, payload: Payloads[K], about: About): Draft<K> =>
  ({
    id: about.id ?? newId(),
    kind,
    format: 1,
    payload,
    patientId: about.patientId,
    visitId: about.visitId ?? null,
    happenedAt: about.happenedAt ?? serverClock.now(),
    after: about.after ?? null,
  }) as Draft<K>;

/**
 * Sends entries of one patient: all are kept or none.
 * @throws ApiProblem `conflict`, `unknownAfter`, `idTaken`, `refused`; NoAnswer when nothing came back
 */
export const sendEntries = (wardId: string, entries: readonly Draft[]): Promise<EntriesAnswer> => {
  // Instants of a draft already follow the ward's clock, so the device's clock is stated as the same.
  const request: EntryBatch = { wardId, deviceAt: serverClock.now(), entries };
  return api.post<EntriesAnswer>('/api/entries', request);
};
