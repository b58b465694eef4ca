import type { BedsideState, WardPolicy } from '@slackwater/domain';
import { useMemo } from 'react';
import type { Waiting } from './outbox.ts';
import { predicted } from './predict.ts';
import { outbox } from './this-device.ts';
import type { Touch } from './touch.ts';
import { useOutbox } from './use-outbox.ts';

/** What waits of one patient and is not being decided on under its author's eyes, in the order in which it was written. */
export const touchesOf = (waiting: readonly Waiting[], patientId: string): readonly Touch[] =>
  waiting.filter((one) => !one.attended && one.touch.patientId === patientId).map((one) => one.touch);

export const useTouchesOf = (patientId: string): readonly Touch[] => {
  const { waiting } = useOutbox();
  return useMemo(() => touchesOf(waiting, patientId), [waiting, patientId]);
};

/** The bedside as it will stand once what waits here is in the record. */
export const usePredicted = (state: BedsideState, policy: WardPolicy): BedsideState => {
  const touches = useTouchesOf(state.patientId);
  const author = outbox.current().holder?.accountId ?? '';
  return useMemo(
    () => (touches.length === 0 ? state : predicted(state, touches, author, policy)),
    [state, touches, author, policy],
  );
};
