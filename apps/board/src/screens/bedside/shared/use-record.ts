import type { Conflict, FieldProblem } from '@slackwater/contract';
import type { Draft } from '@slackwater/domain';
import { useMutation, useQueryClient } from '@tanstack/react-query';
import { ApiProblem, isFinal, NoAnswer, wordsOf } from '../../../api/problems.ts';
import { patientKey, wardQuery } from '../../../api/queries.ts';
import { RefusedHere, recordTouch } from '../../../outbox/record-touch.ts';
import { stateOnDevice } from '../../../outbox/state-on-device.ts';
import { type Act, composeBatch } from '../model/batch.ts';

/** Why the last batch does not stand in the record. Its drafts are kept, with their ids: the same may be sent again. */
export type Failure =
  | { is: 'unsent'; drafts: readonly Draft[]; words: string }
  | { is: 'conflict'; drafts: readonly Draft[]; theirs: Conflict | null }
  | { is: 'refused'; drafts: readonly Draft[]; errors: readonly FieldProblem[]; words: string };

const failureOf = (problem: unknown, drafts: readonly Draft[]): Failure => {
  if (problem instanceof RefusedHere) return { is: 'refused', drafts, errors: problem.errors, words: wordsOf(problem) };
  if (problem instanceof ApiProblem && problem.code === 'conflict')
    return { is: 'conflict', drafts, theirs: problem.conflict ?? null };
  if (problem instanceof ApiProblem && isFinal(problem))
    return { is: 'refused', drafts, errors: problem.errors, words: wordsOf(problem) };
  const words = problem instanceof NoAnswer ? 'No connection: not in the record yet.' : wordsOf(problem);
  return { is: 'unsent', drafts, words };
};

export type Recorder = {
  /** Records what one touch says; resolves to whether it stands in the record, or is kept on this device to go there. */
  record: (acts: readonly Act[], visitId?: string | null) => Promise<boolean>;
  /**
   * Records drafts as they are: again after no answer, or after a conflict was decided.
   * @param typed ids of those whose times a person typed
   */
  send: (drafts: readonly Draft[], typed?: readonly string[]) => Promise<boolean>;
  sending: boolean;
  failure: Failure | null;
  dismiss: () => void;
};

type Batch = { drafts: readonly Draft[]; typed: readonly string[] };

/**
 * The one way from a patient's screens into the record. A touch is one batch, all or nothing; the answer carries the
 * new state, so the screen is right at once. Without network it waits on this device. While a batch is under way a second
 * touch does nothing.
 */
export const useRecord = (patientId: string, wardId: string): Recorder => {
  const queries = useQueryClient();

  const sending = useMutation({
    mutationFn: ({ drafts, typed }: Batch) => recordTouch({ wardId, patientId, drafts, typed }),
    onError: (problem) => {
      // Somebody was faster, or the record does not stand where this screen thought: look again.
      if (!(problem instanceof ApiProblem)) return;
      void queries.invalidateQueries({ queryKey: patientKey(patientId) });
      // A recall that another ward said is known to the server first.
      void queries.invalidateQueries({ queryKey: wardQuery(wardId).queryKey });
    },
  });

  const sendBatch = async (batch: Batch): Promise<boolean> => {
    if (sending.isPending || batch.drafts.length === 0) return false;
    try {
      await sending.mutateAsync(batch);
      return true;
    } catch {
      return false;
    }
  };

  return {
    send: (drafts, typed = []) => sendBatch({ drafts, typed }),
    record: (acts, visitId) => {
      const state = stateOnDevice(patientId);
      const drafts = composeBatch(acts, {
        patientId,
        visitId: visitId === undefined ? (state?.visit?.id ?? state?.lastVisit?.id ?? null) : visitId,
        head: state?.head ?? null,
      });
      const typed = drafts.filter((_, index) => acts[index]?.timeTyped).map(({ id }) => id);
      return sendBatch({ drafts, typed });
    },
    sending: sending.isPending,
    failure: sending.error ? failureOf(sending.error, sending.variables?.drafts ?? []) : null,
    dismiss: sending.reset,
  };
};

/** The server's words for one field, to stand beside it; null when it said nothing about it. */
export const problemAt = (failure: Failure | null, field: string): string | null => {
  if (failure?.is !== 'refused') return null;
  const found = failure.errors.find((error) => error.field === field || error.field.endsWith(`.${field}`));
  return found ? found.message : null;
};
