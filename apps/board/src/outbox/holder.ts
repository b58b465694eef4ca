import type { Session, SignInAnswer } from '@slackwater/contract';
import type { EpochMs } from '@slackwater/domain';
import { serverClock } from '../api/clock.ts';
import { importKey } from './seal.ts';
import { deviceName, deviceSecret, openStore, type Store } from './store.ts';
import { tellTabs } from './tabs.ts';

/** Whoever may open what this device keeps: the signed in, until the absolute end of the session. */
export type Holder = { accountId: string; name: string; key: CryptoKey; device: string; store: Store };

/** What a sign-in says of this browser, so that it is given the same key again; nothing in one that keeps nothing. */
export const deviceForSignIn = async (): Promise<{ device?: string }> => {
  try {
    return { device: await deviceSecret(await openStore()) };
  } catch {
    return {};
  }
};

/**
 * Keeps the key that came with a sign-in, and asks the browser not to throw away what is kept under it.
 * @returns the session without the key: nothing else on the page needs it
 */
export const keepKey = async ({ deviceKey, ...session }: SignInAnswer): Promise<Session> => {
  try {
    const store = await openStore();
    await forgetKeys();
    const { id, name } = session.account;
    await store.put('keys', { accountId: id, name, key: await importKey(deviceKey), until: session.endsAt });
    tellTabs('person');
    await store.put('notes', serverClock.now(), 'lastActAt');
    await store.put('notes', (await navigator.storage?.persist?.()) ?? false, 'persisted');
  } catch {
    // A browser that keeps nothing still works with network; the screens say that nothing can wait here.
  }
  return session;
};

/** Who may open what is kept; null: nobody (signed out, over, or a browser that keeps nothing). */
export const findHolder = async (): Promise<Holder | null> => {
  try {
    const store = await openStore();
    const [row] = await store.getAll('keys');
    if (!row) return null;
    if (row.until <= serverClock.now()) {
      await forgetKeys();
      return null;
    }
    return { accountId: row.accountId, name: row.name, key: row.key, device: await deviceName(store), store };
  } catch {
    return null;
  }
};

/** Signing out takes the key and what the screens showed; what waits stays, sealed, until its author signs in again. */
export const forgetKeys = async (): Promise<void> => {
  try {
    const store = await openStore();
    await Promise.all([store.clear('keys'), store.clear('views')]);
  } catch {
    // Nothing was kept.
  }
};

/** When this person last wrote or gave a password here, for the idle lock without network; null: not known. */
export const lastActAt = async (): Promise<EpochMs | null> => {
  const store = await openStore();
  const at = await store.get('notes', 'lastActAt');
  return typeof at === 'number' ? at : null;
};

export const noteAct = async (): Promise<void> => {
  const store = await openStore();
  await store.put('notes', serverClock.now(), 'lastActAt');
};

/** What the browser answered when it was asked to keep what waits; null: never asked. */
export const isPersisted = async (): Promise<boolean | null> => {
  const store = await openStore();
  const persisted = await store.get('notes', 'persisted');
  return typeof persisted === 'boolean' ? persisted : null;
};
