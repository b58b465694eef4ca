import type { BedsideState, Draft, Entry, EpochMs, Payloads, WardPolicy } from '@slackwater/domain';
import { advance } from '@slackwater/domain/bedside/fold';

/**
 * What the bedside would be if a measure stood in the record: the same fold that the server writes with, so what the
 * screen says before the touch is what the record says after it.
 *
 * @returns null where only a fold of everything could tell; then nothing is said beforehand
 */
export const withMeasure = (
  state: BedsideState,
  visitId: string,
  measure: Payloads['measure'],
  at: EpochMs,
  policy: WardPolicy,
): BedsideState | null => {
  const draft: Draft<'measure'> = {
    id: 'not-recorded',
    kind: 'measure',
    format: 1,
    payload: measure,
    patientId: state.patientId,
    visitId,
    happenedAt: at,
    after: null,
  };
  const entry: Entry<'measure'> = {
    ...draft,
    siteId: '',
    wardId: state.stay?.wardId ?? '',
    deviceAt: at,
    receivedAt: at,
    author: '',
    position: (state.newest?.position ?? 0) + 1,
  };
  const folded = advance(state, entry, policy);
  return folded === 'refold' ? null : folded.state;
};
