import { api } from './client.ts';
import { NoAnswer } from './problems.ts';
import { sessionQuery } from './queries.ts';
import { queryClient } from './query-client.ts';

/** Set while a sign-out has not reached the server: nobody is let in by that session on this device meanwhile. */
const DUE = 'slackwater:sign-out-due';

/**
 * Signs out here, or everywhere. Without network this device forgets the person at once and tells the server when it is
 * heard again. What waits in the outbox stays, sealed.
 */
export const signOut = async (where: 'here' | 'everywhere'): Promise<void> => {
  const path = where === 'here' ? '/api/sign-out' : '/api/sign-out-everywhere';
  try {
    await api.post(path);
  } catch (problem) {
    if (!(problem instanceof NoAnswer)) throw problem;
    localStorage.setItem(DUE, path);
  }
  const [{ endOutbox }, { forgetWards }] = await Promise.all([
    import('../outbox/this-device.ts'),
    import('../live/use-ward.ts'),
  ]);
  await endOutbox();
  queryClient.clear();
  forgetWards();
};

/** Ends the session that somebody left while there was no network. @returns whether nobody may come in by it */
export const finishSignOut = async (): Promise<boolean> => {
  const path = localStorage.getItem(DUE);
  if (path === null) return false;
  try {
    await api.post(path);
  } catch (problem) {
    if (problem instanceof NoAnswer) return true;
  }
  localStorage.removeItem(DUE);
  return true;
};

/** A new session took the place of the one that was left. */
export const signedInAnew = (): void => localStorage.removeItem(DUE);

/** How many entries of the person who is signed in wait on this device. */
export const entriesThatStay = async (): Promise<number> => {
  const { outbox, beginOutbox } = await import('../outbox/this-device.ts');
  // It is opened a moment after the board: whoever leaves at once is told all the same.
  const accountId = queryClient.getQueryData(sessionQuery.queryKey)?.account.id ?? null;
  if (outbox.current().holder === null) await beginOutbox(accountId);
  return outbox.current().waiting.reduce((sum, { touch }) => sum + touch.drafts.length, 0);
};
