import type { EpochMs } from '@slackwater/domain';
import { useSyncExternalStore } from 'react';
import { serverClock } from '../api/clock.ts';
import { whenInSight } from '../ui/when-in-sight.ts';

/**
 * A clock that steps with the ward's time and not between: every subscriber wakes together, at the turn of the minute
 * or second, and nothing runs while nobody listens.
 */
const createTicker = (everyMs: number, { now, onStep }: Pick<typeof serverClock, 'now' | 'onStep'>) => {
  const step = () => Math.floor(now() / everyMs) * everyMs;
  const listeners = new Set<() => void>();
  let current = step();
  let timer: ReturnType<typeof setTimeout> | undefined;

  const read = () => {
    const next = step();
    if (next === current) return;
    current = next;
    for (const listener of listeners) listener();
  };
  const wake = () => {
    read();
    clearTimeout(timer);
    timer = setTimeout(wake, everyMs - (now() % everyMs));
  };
  let ends: readonly (() => void)[] = [];

  return {
    subscribe: (listener: () => void) => {
      if (listeners.size === 0) {
        current = step();
        timer = setTimeout(wake, everyMs - (now() % everyMs));
        // A tablet that slept wakes with a timer that is late by as long as it slept.
        ends = [whenInSight(read), onStep(wake)];
      }
      listeners.add(listener);
      return () => {
        listeners.delete(listener);
        if (listeners.size > 0) return;
        clearTimeout(timer);
        for (const end of ends) end();
      };
    },
    current: (): EpochMs => (listeners.size === 0 ? step() : current),
  };
};

export const minutes = createTicker(60_000, serverClock);
const seconds = createTicker(1000, serverClock);

/** The ward's time at the last full minute; renders again at the next. */
export const useMinute = (): EpochMs => useSyncExternalStore(minutes.subscribe, minutes.current);

/** The ward's time at the last full second; renders again at the next. For timers that run under somebody's eyes. */
export const useSecond = (): EpochMs => useSyncExternalStore(seconds.subscribe, seconds.current);

/**
 * Something told from the ward's time, looked at each minute; the component renders again only when it is another.
 *
 * @param read answers a primitive, or the same object while nothing changed
 */
export const useEachMinute = <Value>(read: (now: EpochMs) => Value): Value =>
  useSyncExternalStore(minutes.subscribe, () => read(minutes.current()));

/**
 * The last instant of the minute that a clock shows: minutes counted to and from it agree with two clock times on the
 * screen. Due 12:32, clock 12:02: 30 minutes, whatever the seconds; at 12:32 it is due.
 */
export const asTheClockSays = (minute: EpochMs): EpochMs => minute + 59_999;
