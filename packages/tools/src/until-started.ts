import { setTimeout } from 'node:timers/promises';

/** After the first try that failed, the second, and so on; from then on as after the last. */
const AGAIN_AFTER_MS = [500, 1_000, 2_000, 5_000, 10_000, 30_000];

/**
 * Tries to start what has died, until it is done or not wanted any more.
 * @param tell why a try failed, and when the next one is made
 */
export async function untilStarted(
  start: () => Promise<void>,
  tell: (line: string) => void,
  unwanted: AbortSignal,
): Promise<void> {
  for (let failures = 0; !unwanted.aborted; failures += 1) {
    try {
      return await start();
    } catch (error) {
      const wait = AGAIN_AFTER_MS[Math.min(failures, AGAIN_AFTER_MS.length - 1)]!;
      tell(`The database could not be started again; next try in ${wait / 1000} s. ${(error as Error).message}`);
      await setTimeout(wait, undefined, { ref: false, signal: unwanted }).catch(() => undefined);
    }
  }
}
