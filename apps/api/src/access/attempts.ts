import { randomUUID } from 'node:crypto';
import type { Pool, PoolClient } from 'pg';
import { ProblemError } from '../problems.ts';
import {
  DROP_OLD_ATTEMPTS,
  FAILURES_OF_NAME,
  FAILURES_OF_SOURCE,
  FORGET_ATTEMPT,
  HAS_SUCCEEDED,
  HOLD_SOURCE,
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

/** What is guessed at, and what else than waiting helps. */
const GUESSED = {
  password: { many: 'wrong passwords', else: '' },
  wallCode: { many: 'wrong codes', else: ', or sign in here first: then only your own count' },
} as const;

const tooMany = (what: keyof typeof GUESSED, left: number) => {
  const { many, else: otherWay } = GUESSED[what];
  const detail = `Too many ${many} were given. Try again in ${left} s${otherWay}.`;
  return new ProblemError('tooManyAttempts', detail, { retryAfterS: left });
};

type Source = { source: string; known: boolean };
export type From = { address: string; device: string | null };

/**
 * Slows the guessing of passwords and of codes. Failures are counted per name and source, in Postgres, so for all processes.
 * The source is the browser where this person has signed in before (its own cookie proves it), else the address: so
 * nobody who hammers a name, even from the next desk, can lock its owner out of the owner's own devices.
 */
export function openAttempts(pool: Pool, siteId: string) {
  const deviceSource = (device: string) => `device ${hashToken(device).toString('hex')}`;

  async function sourceOf(login: string, { address, device }: From): Promise<Source> {
    if (device === null) return { source: address, known: false };
    const source = deviceSource(device);
    const { rows } = await pool.query<{ known: boolean }>({ ...HAS_SUCCEEDED, values: [siteId, login, source] });
    return rows[0]!.known ? { source, known: true } : { source: address, known: false };
  }

  async function note(db: Pool | PoolClient, login: string, source: string, succeeded: boolean): Promise<string> {
    const id = randomUUID();
    await db.query({ ...NOTE_ATTEMPT, values: [siteId, id, login, source, succeeded] });
    return id;
  }

  /** Seconds that a source still has to wait. */
  async function waitLeft(client: PoolClient, login: string, { source, known }: Source): Promise<number> {
    const left = async (statement: { name: string; text: string }, values: string[], wait: (n: number) => number) => {
      const { rows } = await client.query<{ failures: number; since_s: number | null }>({ ...statement, values });
      const { failures, since_s } = rows[0]!;
      return Math.ceil(wait(failures) - (since_s ?? 0));
    };
    const ofName = await left(FAILURES_OF_NAME, [siteId, login, source], waitAfter);
    if (known) return ofName;
    const ofAddress = (failures: number) => (failures < FREE_FAILURES_OF_ADDRESS ? 0 : WAIT_OF_ADDRESS_S);
    return Math.max(ofName, await left(FAILURES_OF_SOURCE, [siteId, source], ofAddress));
  }

  /**
   * Notes an attempt as failed before the guess is looked at, one after another for each source: else a hundred guesses at
   * once would all be looked at before the first is known to be wrong.
   * @returns the attempt
   */
  async function begin(login: string, from: From, what: keyof typeof GUESSED): Promise<string> {
    const source = await sourceOf(login, from);
    const client = await pool.connect();
    try {
      await client.query('BEGIN');
      await client.query({ ...HOLD_SOURCE, values: [`${siteId} ${source.source}`] });
      const left = await waitLeft(client, login, source);
      if (left > 0) throw tooMany(what, left);
      const attempt = await note(client, login, source.source, false);
      await client.query('COMMIT');
      return attempt;
    } catch (error) {
      await client.query('ROLLBACK').catch(() => undefined);
      throw error;
    } finally {
      client.release();
    }
  }

  const forget = (attempt: string) => pool.query({ ...FORGET_ATTEMPT, values: [siteId, attempt] });

  return {
    /**
     * Looks at a guess. It counts against its source only where it was wrong: not where it was right, nor where nobody
     * could look.
     * @param login the name that is tried; one for all of what has no names
     * @returns what was found on looking
     * @throws ProblemError `tooManyAttempts` while the source must wait; this attempt then does not count, and is not
     *   looked at. What `look` throws.
     */
    async guess<Found>(
      { what, login, from }: { what: keyof typeof GUESSED; login: string; from: From },
      look: () => Promise<Found>,
      isRight: (found: Found) => boolean,
    ): Promise<Found> {
      const attempt = await begin(login, from, what);
      const found = await look().catch(async (error) => {
        await forget(attempt);
        throw error;
      });
      if (isRight(found)) await forget(attempt);
      return found;
    },

    /** @param device the browser's own secret, which it keeps from now on */
    async succeeded(login: string, { address, device }: { address: string; device: string }) {
      await note(pool, login, address, true);
      await note(pool, login, deviceSource(device), true);
      await pool.query({ ...DROP_OLD_ATTEMPTS, values: [siteId, login] });
    },
  };
}
