import { randomUUID } from 'node:crypto';
import type { Pool } from 'pg';
import { ProblemError } from '../problems.ts';
import {
  DROP_OLD_ATTEMPTS,
  FAILURES_OF_NAME,
  FAILURES_OF_SOURCE,
  HAS_SUCCEEDED,
  NOTE_ATTEMPT,
} from './attempts.sql.ts';
import { hashToken } from './tokens.ts';

/** Failures under one name that cost nothing; from then on the wait doubles. */
const FREE_FAILURES = 5;
const LONGEST_WAIT_S = 900;
/** Failures under all names from one address within a quarter of an hour; a whole ward may share an address. */
const FREE_FAILURES_OF_ADDRESS = 60;
const WAIT_OF_ADDRESS_S = 30;

/** How long a source waits after its `failures`-th failure under one name, seconds: 0, then 2, 4, 8 … 900. */
export const waitAfter = (failures: number): number =>
  failures < FREE_FAILURES ? 0 : Math.min(LONGEST_WAIT_S, 2 ** (failures - FREE_FAILURES + 1));

export type From = { address: string; device: string | null };
export type Attempts = ReturnType<typeof openAttempts>;

/**
 * Slows the guessing of passwords. Failures are counted per name and source, in Postgres, so for all processes.
 * The source is the browser where this person has signed in before (its own cookie proves it), else the address: so
 * nobody who hammers a name, even from the next desk, can lock its owner out of the owner's own devices.
 */
export function openAttempts(pool: Pool, siteId: string) {
  const deviceSource = (device: string) => `device ${hashToken(device).toString('hex')}`;

  async function sourceOf(login: string, { address, device }: From) {
    if (device === null) return { source: address, known: false };
    const source = deviceSource(device);
    const { rows } = await pool.query<{ known: boolean }>({ ...HAS_SUCCEEDED, values: [siteId, login, source] });
    return rows[0]!.known ? { source, known: true } : { source: address, known: false };
  }

  async function note(login: string, source: string, succeeded: boolean) {
    await pool.query({ ...NOTE_ATTEMPT, values: [siteId, randomUUID(), login, source, succeeded] });
  }

  async function waitLeft(statement: { name: string; text: string }, values: string[], wait: (n: number) => number) {
    const { rows } = await pool.query<{ failures: number; since_s: number | null }>({ ...statement, values });
    const { failures, since_s } = rows[0]!;
    return Math.ceil(wait(failures) - (since_s ?? 0));
  }

  return {
    /** @throws ProblemError `tooManyAttempts` while the source must wait; this attempt then does not count. */
    async refuseIfTooMany(login: string, from: From) {
      const { source, known } = await sourceOf(login, from);
      let left = await waitLeft(FAILURES_OF_NAME, [siteId, login, source], waitAfter);
      if (!known) {
        const ofAddress = (failures: number) => (failures < FREE_FAILURES_OF_ADDRESS ? 0 : WAIT_OF_ADDRESS_S);
        left = Math.max(left, await waitLeft(FAILURES_OF_SOURCE, [siteId, source], ofAddress));
      }
      if (left <= 0) return;
      const detail = `Too many wrong passwords were given. Try again in ${left} s.`;
      throw new ProblemError('tooManyAttempts', detail, { retryAfterS: left });
    },

    async failed(login: string, from: From) {
      await note(login, (await sourceOf(login, from)).source, false);
    },

    /** @param device the browser's own secret, which it keeps from now on */
    async succeeded(login: string, { address, device }: { address: string; device: string }) {
      await note(login, address, true);
      await note(login, deviceSource(device), true);
      await pool.query({ ...DROP_OLD_ATTEMPTS, values: [siteId, login] });
    },
  };
}
