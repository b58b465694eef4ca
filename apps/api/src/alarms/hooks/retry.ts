import { HOUR_MS, MINUTE_MS } from '@slackwater/domain';

/** A message that nobody took is given up after this: who is paged about yesterday is paged for nothing. */
export const GIVE_UP_AFTER_MS = 24 * HOUR_MS;

const FIRST_WAIT_MS = 5_000;
const LONGEST_WAIT_MS = 30 * MINUTE_MS;

/**
 * How long to wait after a try that failed: 5 s, doubled each time, half an hour at most.
 * @param tries how many were made, 1 or more
 */
export const waitAfterMs = (tries: number): number =>
  Math.min(LONGEST_WAIT_MS, FIRST_WAIT_MS * 2 ** Math.min(tries - 1, 20));
