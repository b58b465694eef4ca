import type { EpochMs } from '@slackwater/domain';

type Kept = { keptAt: EpochMs; value: unknown };

const PREFIX = 'slackwater:draft:';

/** Longer than any session: what nobody came back for in a day no longer describes the patient. */
const KEEP_MS = 24 * 60 * 60_000;

/**
 * What somebody typed and has not recorded yet, kept in this browser under the person's own account: it survives a
 * reload, the idle lock and a new sign-in of the same person, and nobody else on the tablet is shown it.
 *
 * @param storage the browser's local storage, or anything like it; a storage that is full or forbidden loses drafts,
 *   never the screen
 * @param now the ward's time
 */
export const createDraftStore = (storage: Pick<Storage, 'getItem' | 'setItem' | 'removeItem'>, now: () => EpochMs) => {
  const nameOf = (accountId: string, key: string): string => `${PREFIX}${accountId}:${key}`;

  const read = (accountId: string, key: string): unknown => {
    try {
      const text = storage.getItem(nameOf(accountId, key));
      if (text === null) return undefined;
      const kept = JSON.parse(text) as Kept;
      return now() - kept.keptAt > KEEP_MS ? undefined : kept.value;
    } catch {
      return undefined;
    }
  };

  const write = (accountId: string, key: string, value: unknown): void => {
    try {
      storage.setItem(nameOf(accountId, key), JSON.stringify({ keptAt: now(), value } satisfies Kept));
    } catch {
      // The form still holds it; only a reload would lose it.
    }
  };

  const clear = (accountId: string, key: string): void => {
    try {
      storage.removeItem(nameOf(accountId, key));
    } catch {
      // Nothing was kept.
    }
  };

  return { read, write, clear };
};
