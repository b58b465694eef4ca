import type { Draft, EntryKind, EpochMs, Payloads } from '@slackwater/domain';
import { STEPS } from '@slackwater/domain/exchange/steps';
import { newId } from '../../../api/ids.ts';

/** One thing to record, before it has an id and a predecessor. */
export type Act<K extends EntryKind = EntryKind> = {
  [P in K]: {
    kind: P;
    payload: Payloads[P];
    happenedAt: EpochMs;
    id?: string;
    /** A person typed the time: no clock moves it. */
    timeTyped?: boolean;
  };
}[K];

/** Gives one act its type, so that a payload that does not belong to its kind does not compile. */
export const act = <K extends EntryKind>(kind: K, payload: Payloads[K], happenedAt: EpochMs): Act => {
  const made: { kind: K; payload: Payloads[K]; happenedAt: EpochMs } = { kind, payload, happenedAt };
  return made as unknown as Act;
};

const STEP_KINDS: ReadonlySet<string> = new Set(STEPS);

/**
 * Turns what one touch says into drafts for the record. Steps are chained: the first names the last step its author
 * saw, each further one the step before it in the batch. Observations name none, they commute.
 */
export const composeBatch = (
  acts: readonly Act[],
  context: { patientId: string; visitId: string | null; head: string | null },
): readonly Draft[] => {
  let head = context.head;
  return acts.map((one) => {
    const id = one.id ?? newId();
    const isStep = STEP_KINDS.has(one.kind);
    const after = isStep ? head : null;
    if (isStep) head = id;
    return {
      id,
      kind: one.kind,
      format: 1,
      payload: one.payload,
      patientId: context.patientId,
      visitId: context.visitId,
      happenedAt: one.happenedAt,
      after,
    } as Draft;
  });
};
