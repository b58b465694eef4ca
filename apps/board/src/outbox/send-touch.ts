import type { EntriesAnswer, EntryBatch, OutboxAnswer, OutboxBatch, Session } from '@slackwater/contract';
import { api } from '../api/client.ts';
import { serverClock } from '../api/clock.ts';
import { askForPassword, StillLocked } from '../api/lock.ts';
import { ApiProblem, isFinal, isLocked, isSignedOut, NoAnswer, wordsOf } from '../api/problems.ts';
import { sessionQuery } from '../api/queries.ts';
import { queryClient } from '../api/query-client.ts';
import type { Holder } from './holder.ts';
import type { SendResult } from './outbox.ts';
import type { Touch } from './touch.ts';

/** A line on which nothing moves is no line. */
const NO_ANSWER_AFTER_MS = 8000;

const within = () => ({ signal: AbortSignal.timeout(NO_ANSWER_AFTER_MS) });

/** What a failure says about sending the same again. */
const resultOf = (problem: unknown): SendResult => {
  if (problem instanceof NoAnswer) return { is: 'noAnswer' };
  if (isSignedOut(problem)) return { is: 'heldUp', words: wordsOf(problem) };
  if (!(problem instanceof ApiProblem)) return { is: 'noAnswer' };
  if (problem.code === 'unknownAfter') return { is: 'tooEarly' };
  // A server that is there and does not record says why: its disk is full, its database is away.
  return isFinal(problem) ? { is: 'refused', problem } : { is: 'heldUp', words: wordsOf(problem) };
};

/** Whoever turned away from the question is not asked again by what goes out by itself. */
let declined = false;

/** The person wants it sent now: the password may be asked for again. */
export const askAgain = (): void => {
  declined = false;
};

/** The idle lock stands over the form; what was typed and what waits goes on once the password is given. */
const unlocked = async <T>(work: () => Promise<T>): Promise<T> => {
  try {
    return await work();
  } catch (problem) {
    if (!isLocked(problem)) throw problem;
    await askForPassword();
    return work();
  }
};

const sendAttended = async ({ wardId, drafts }: Touch): Promise<SendResult> => {
  // Its author looks on, so nothing has stepped: the device's clock is stated as the ward's.
  const batch: EntryBatch = { wardId, deviceAt: serverClock.now(), entries: drafts };
  try {
    const answer = await unlocked(() => api.postUnasked<EntriesAnswer>('/api/entries', batch, within()));
    return { is: 'recorded', answer };
  } catch (problem) {
    if (problem instanceof ApiProblem || problem instanceof NoAnswer) return resultOf(problem);
    return { is: 'refused', problem };
  }
};

const sendWaited = async ({ wardId, writtenAt, drafts }: Touch, authorId: string): Promise<SendResult> => {
  const batch: OutboxBatch = { authorId, wardId, deviceAt: writtenAt, entries: [...drafts] };
  const post = () => api.postUnasked<OutboxAnswer>('/api/outbox', batch, within());
  try {
    const answer = await (declined ? post() : unlocked(post));
    return answer.outcome === 'kept' ? { is: 'kept' } : { is: 'recorded', answer: answer.answer };
  } catch (problem) {
    if (problem instanceof StillLocked || isLocked(problem)) {
      declined = true;
      return { is: 'heldUp', words: 'Writing is locked until you give your password.' };
    }
    const result = resultOf(problem);
    // The outbox's own door keeps what is refused: another refusal is of this very session or build.
    return result.is === 'refused' ? { is: 'heldUp', words: wordsOf(problem) } : result;
  }
};

/** Sends one touch; see `Parts` of the outbox. */
export const sendTouch = (touch: Touch, attended: boolean, authorId: string): Promise<SendResult> =>
  attended ? sendAttended(touch) : sendWaited(touch, authorId);

/** Whether what waits may go out now: the server is there, its clock is heard, and the author is who is signed in. */
export const readyToSend = async ({ accountId, name }: Holder): Promise<SendResult | null> => {
  try {
    const session = await api.get<Session>('/api/session', within());
    if (session.account.id !== accountId)
      return { is: 'heldUp', words: `${session.account.name} is signed in: these go out when ${name} signs in.` };
    queryClient.setQueryData(sessionQuery.queryKey, session);
    return null;
  } catch (problem) {
    return resultOf(problem);
  }
};
