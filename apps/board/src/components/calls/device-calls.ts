import { useSyncExternalStore } from 'react';

/** How this device calls people, beside showing it. Nothing calls before somebody chose it here. */
export type DeviceCalls = {
  sound: 'off' | 'high';
  /** Notices of the browser, outside the page. */
  notices: 'off' | 'high';
};

const KEYS = { sound: 'slackwater.sound', notices: 'slackwater.notices' } as const;
const listeners = new Set<() => void>();
let current: DeviceCalls | null = null;

const read = (key: string): 'off' | 'high' => (localStorage.getItem(key) === 'high' ? 'high' : 'off');

const currentCalls = (): DeviceCalls => {
  current ??= { sound: read(KEYS.sound), notices: read(KEYS.notices) };
  return current;
};

const changed = () => {
  current = null;
  for (const listener of listeners) listener();
};

const subscribe = (listener: () => void) => {
  // another tab of this device chose
  if (listeners.size === 0) window.addEventListener('storage', changed);
  listeners.add(listener);
  return () => {
    listeners.delete(listener);
    if (listeners.size === 0) window.removeEventListener('storage', changed);
  };
};

/** What was chosen for this device; the same in all its tabs. */
export const useDeviceCalls = (): DeviceCalls => useSyncExternalStore(subscribe, currentCalls);

export const chooseCalls = (change: Partial<DeviceCalls>): void => {
  for (const [name, value] of Object.entries(change)) localStorage.setItem(KEYS[name as keyof DeviceCalls], value);
  changed();
};
