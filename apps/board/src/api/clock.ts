import type { EpochMs } from '@slackwater/domain';

/** A better sample than the one in use may be no older than this; crystals drift by seconds a day. */
const FORGET_AFTER_MS = 10 * 60_000;
/** What is less is how exactly a clock can be read over a network. */
const STEP_MS = 500;

type Sample = { offsetMs: number; roundTripMs: number; takenAt: number };

/**
 * The ward's clock (the database's) as this device sees it. It counts on the monotonic clock, so that somebody who
 * sets the tablet's time does not move a countdown; of all samples the one with the smallest round trip wins.
 *
 * @param monotonic milliseconds that only grow, such as `performance.now`
 * @param wall the device's own epoch milliseconds, used until the first answer
 */
const createServerClock = (monotonic: () => number, wall: () => EpochMs) => {
  let best: Sample | null = null;
  const listeners = new Set<() => void>();

  /** A step of the clock, not its drift, is told: after a sleep whatever counts from it must count again. */
  const take = (sample: Sample): void => {
    const before = now();
    best = sample;
    if (Math.abs(now() - before) >= STEP_MS) for (const listener of listeners) listener();
  };

  /** The ward's time now, epoch ms. */
  const now = (): EpochMs => (best ? Math.round(monotonic() + best.offsetMs) : wall());

  /** An answer that carried the server's time: sent and received on the monotonic clock. */
  const observe = (sentAt: number, receivedAt: number, serverAt: EpochMs): void => {
    const sample: Sample = {
      offsetMs: serverAt - (sentAt + receivedAt) / 2,
      roundTripMs: receivedAt - sentAt,
      takenAt: receivedAt,
    };
    const contradicts = best !== null && (best.offsetMs < serverAt - receivedAt || best.offsetMs > serverAt - sentAt);
    const tooOld = best !== null && receivedAt - best.takenAt > FORGET_AFTER_MS;
    if (best === null || contradicts || tooOld || sample.roundTripMs <= best.roundTripMs) take(sample);
  };

  /** A message of the stream: it was sent before it came, so the ward's time is at least this. */
  const atLeast = (serverAt: EpochMs): void => {
    if (now() < serverAt) {
      take({ offsetMs: serverAt - monotonic(), roundTripMs: Number.POSITIVE_INFINITY, takenAt: monotonic() });
    }
  };

  /** Before the first answer: the difference to the device's time of day that an earlier page knew, ms. */
  const assume = (aheadOfWallMs: number): void => {
    if (best !== null) return;
    const offsetMs = wall() + aheadOfWallMs - monotonic();
    best = { offsetMs, roundTripMs: Number.POSITIVE_INFINITY, takenAt: monotonic() };
  };

  return {
    now,
    observe,
    atLeast,
    assume,
    isSet: () => best !== null,
    /** Calls back whenever the clock steps. @returns what ends that */
    onStep: (listener: () => void): (() => void) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
};

export const serverClock = createServerClock(
  () => performance.now(),
  () => Date.now(),
);
