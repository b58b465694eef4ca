import type { BedsideState } from '@slackwater/domain';
import { bedsideQuery, wardQuery } from '../api/queries.ts';
import { queryClient } from '../api/query-client.ts';
import { predicted } from './predict.ts';
import { outbox } from './this-device.ts';
import { touchesOf } from './use-predicted.ts';

/** The bedside as this device knows it at this moment: what the server said last, with what waits here. */
export const stateOnDevice = (patientId: string): BedsideState | null => {
  const view = queryClient.getQueryData(bedsideQuery(patientId).queryKey);
  const ward = view && queryClient.getQueryData(wardQuery(view.wardId).queryKey);
  if (!view) return null;
  const { holder, waiting } = outbox.current();
  const touches = touchesOf(waiting, patientId);
  if (!ward || !holder || touches.length === 0) return view.state;
  return predicted(view.state, touches, holder.accountId, ward.policy);
};
