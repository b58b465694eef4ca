import type { Draft, Problem } from '@slackwater/domain';
import { serverClock } from '../api/clock.ts';
import { sendEntries } from '../api/entries.ts';
import { NoAnswer } from '../api/problems.ts';
import { bedsideQuery, sessionQuery, wardQuery } from '../api/queries.ts';
import { queryClient } from '../api/query-client.ts';
import { reached } from '../api/reach.ts';
import { roleOn } from '../api/use-session.ts';
import { applyAnswer } from './apply-answer.ts';
import { lastActAt, noteAct } from './holder.ts';
import { isLockedOffline } from './offline-lock.ts';
import { problemsOffline } from './predict.ts';
import { stateOnDevice } from './state-on-device.ts';
import { outbox, readClocks } from './this-device.ts';
import type { Touch } from './touch.ts';
import { touchesOf } from './use-predicted.ts';

/** This device, without network, refuses what the server would refuse, or what only the server can tell. */
export class RefusedHere extends Error {
  override readonly name = 'RefusedHere';
  readonly errors: readonly Problem[];
  constructor(errors: readonly Problem[]) {
    super(errors.map(({ message }) => message).join(' '));
    this.errors = errors;
  }
}

const refusedWhole = (code: string, message: string) =>
  new RefusedHere([{ code, field: '', value: null, allowed: '', message }]);

type What = { wardId: string; patientId: string; drafts: readonly Draft[]; typed: readonly string[] };

/**
 * Records one touch: onto this device first, from there into the record.
 * Resolves once it stands in the record, or waits on this device.
 * @throws ApiProblem and NoAnswer as sending does, where it does not wait here; RefusedHere
 */
export const recordTouch = async ({ wardId, patientId, drafts, typed }: What): Promise<void> => {
  const touch: Touch = {
    wardId,
    patientId,
    drafts,
    writtenAt: serverClock.now(),
    clock: readClocks(),
    typed,
    timesSaid: false,
  };
  if (reached.current().down && outbox.current().holder) await judgeHere(touch, patientId);
  const outcome = await outbox.put(touch).catch(() => ({ is: 'noOutbox' }) as const);
  void noteAct().catch(() => {});
  switch (outcome.is) {
    case 'recorded':
    case 'waits':
      return;
    case 'refused':
      throw outcome.problem;
    case 'noOutbox':
      applyAnswer(patientId, await sendEntries(wardId, drafts));
  }
};

/** Without network: whether writing is locked, and what the domain says to it. @throws RefusedHere */
const judgeHere = async (touch: Touch, patientId: string): Promise<void> => {
  const session = queryClient.getQueryData(sessionQuery.queryKey);
  const view = queryClient.getQueryData(bedsideQuery(patientId).queryKey);
  const ward = queryClient.getQueryData(wardQuery(touch.wardId).queryKey);
  const state = stateOnDevice(patientId);
  const role = session ? roleOn(session, touch.wardId) : null;
  if (!session || !view || !ward || !state || !role) throw new NoAnswer();

  const now = serverClock.now();
  if (now >= session.endsAt)
    throw refusedWhole(
      'session-over',
      'Your session has ended, and without network nobody can sign in. Write on the sheet.',
    );
  const lock = { lastActAt: await lastActAt(), now, idleLockMs: session.idleLockMs, visitOpen: state.visit !== null };
  if (isLockedOffline(lock))
    throw refusedWhole(
      'locked',
      'Writing is locked after a time without a touch, and without network no password can be checked. Write on the sheet.',
    );
  const problems = problemsOffline(touch, {
    state: view.state,
    waiting: touchesOf(outbox.current().waiting, patientId),
    policy: ward.policy,
    now,
    author: { accountId: session.account.id, role },
  });
  if (problems.length > 0) throw new RefusedHere(problems);
};
