import type { EpochMs } from '@slackwater/domain';
import { serverClock } from './clock.ts';

/** Whether the ward's server can be reached, as far as this page knows. */
export type Reach = {
  down: boolean;
  /** When the server was last heard; of the start while it was not. */
  heardAt: EpochMs;
};

let reach: Reach = { down: false, heardAt: serverClock.now() };
const listeners = new Set<() => void>();

const set = (next: Reach, tell: boolean) => {
  reach = next;
  if (tell) for (const listener of listeners) listener();
};

export const reached = {
  subscribe: (listener: () => void) => {
    listeners.add(listener);
    return () => listeners.delete(listener);
  },
  current: () => reach,
  /** Something came from the server. Told on only when it was away: it comes with every answer. */
  heard: () => set({ down: false, heardAt: serverClock.now() }, reach.down),
  /** A request got no answer, or the device says that it has no network. */
  lost: () => {
    if (!reach.down) set({ ...reach, down: true }, true);
  },
  /** What is shown is of an earlier page: older than anything this one has heard. */
  heardBefore: (heardAt: EpochMs) => set({ down: true, heardAt }, true),
};
