import type { EpochMs } from '@slackwater/domain';
import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import { newId } from '../api/ids.ts';
import type { Sealed } from './seal.ts';

/** Whose key this browser holds, until the session's absolute end. */
export type KeyRow = { accountId: string; name: string; key: CryptoKey; until: EpochMs };

/** A touch on this device. In the clear stands only what must be said without its author: whose, and how many. */
export type TouchRow = Sealed & {
  /** The order in which they were written. */
  sequence: number;
  format: number;
  accountId: string;
  accountName: string;
  entries: number;
};

/** What a screen last showed, for when there is no network. */
export type ViewRow = Sealed & { accountId: string; name: string; format: number };

interface Schema extends DBSchema {
  keys: { key: string; value: KeyRow };
  touches: { key: number; value: TouchRow };
  views: { key: [string, string]; value: ViewRow };
  notes: { key: string; value: unknown };
}

export type Store = IDBPDatabase<Schema>;

const VERSION = 1;
/** A touch counts as kept once the disk has it, not once the browser means to write it. */
const STRICT = { durability: 'strict' } as const;

let opened: Promise<Store> | null = null;

/** This browser's own database. Rejects where a browser allows none: then nothing can wait on this device. */
export const openStore = (): Promise<Store> => {
  opened ??= openDB<Schema>('slackwater', VERSION, {
    upgrade(db) {
      db.createObjectStore('keys', { keyPath: 'accountId' });
      db.createObjectStore('touches', { keyPath: 'sequence', autoIncrement: true });
      db.createObjectStore('views', { keyPath: ['accountId', 'name'] });
      db.createObjectStore('notes');
    },
    blocking: (_, __, event) => {
      (event.target as IDBDatabase).close();
      opened = null;
    },
    terminated: () => {
      opened = null;
    },
  });
  opened.catch(() => {
    opened = null;
  });
  return opened;
};

/** A word that is made once and then kept, on the disk before anybody is told it. */
const madeOnce = async (store: Store, note: string, make: () => string): Promise<string> => {
  // Read and made in one transaction: two that ask at once must be told the same.
  const transaction = store.transaction('notes', 'readwrite', STRICT);
  const known = await transaction.store.get(note);
  const word = typeof known === 'string' ? known : make();
  if (word !== known) await transaction.store.put(word, note);
  await transaction.done;
  return word;
};

/** A name of this browser for its own use: what is sealed here opens nowhere else. */
export const deviceName = (store: Store): Promise<string> => madeOnce(store, 'device', newId);

/** By this the server knows the browser again where its cookie is gone: 256 bits in base64url. */
export const deviceSecret = (store: Store): Promise<string> =>
  madeOnce(store, 'secret', () => {
    const bytes = crypto.getRandomValues(new Uint8Array(32));
    return btoa(String.fromCharCode(...bytes))
      .replaceAll('+', '-')
      .replaceAll('/', '_')
      .replaceAll('=', '');
  });

export const addTouch = async (store: Store, row: Omit<TouchRow, 'sequence'>): Promise<number> => {
  const transaction = store.transaction('touches', 'readwrite', STRICT);
  const sequence = await transaction.store.add(row as TouchRow);
  await transaction.done;
  return sequence;
};

export const replaceTouch = async (store: Store, row: TouchRow): Promise<void> => {
  const transaction = store.transaction('touches', 'readwrite', STRICT);
  await transaction.store.put(row);
  await transaction.done;
};

export const removeTouch = async (store: Store, sequence: number): Promise<void> => {
  const transaction = store.transaction('touches', 'readwrite', STRICT);
  await transaction.store.delete(sequence);
  await transaction.done;
};
