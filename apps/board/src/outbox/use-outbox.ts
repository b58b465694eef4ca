import { useSyncExternalStore } from 'react';
import { reached } from '../api/reach.ts';
import type { OutboxNow } from './outbox.ts';
import { outbox } from './this-device.ts';

export const useOutbox = (): OutboxNow => useSyncExternalStore(outbox.subscribe, outbox.current);

export const useReach = () => useSyncExternalStore(reached.subscribe, reached.current);
