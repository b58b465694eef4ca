import { useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { serverClock } from '../api/clock.ts';
import { sessionQuery } from '../api/queries.ts';
import { createDraftStore } from './draft-store.ts';

const store = createDraftStore(localStorage, serverClock.now);

/**
 * State of a form that survives a reload and a new sign-in of the same person.
 *
 * @param key names patient, visit and form; a component whose key can change while it is shown takes it as React `key`
 * @returns the value, how to set it, and how to forget it once it is recorded
 */
export const useDraft = <T>(key: string, initial: T): readonly [T, (value: T) => void, () => void] => {
  const accountId = useQueryClient().getQueryData(sessionQuery.queryKey)?.account.id ?? 'nobody';
  const [value, setValue] = useState<T>(() => (store.read(accountId, key) as T | undefined) ?? initial);
  const keep = (next: T) => {
    store.write(accountId, key, next);
    setValue(next);
  };
  const forget = () => {
    store.clear(accountId, key);
    setValue(initial);
  };
  return [value, keep, forget];
};
