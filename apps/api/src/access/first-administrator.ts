import { randomUUID, timingSafeEqual } from 'node:crypto';
import type { Pool } from 'pg';
import { hashPassword } from './password.ts';
import { hashToken, newToken } from './tokens.ts';

export type Administrator = { login: string; name: string; password: string };

/** Only where nobody can manage the hospital yet. $1 site, $2 id, $3 login, $4 name, $5 hash */
const MAKE_FIRST = `
  INSERT INTO account (site_id, id, login, name, password_hash, password_changed_at, manager, created_at)
  SELECT $1, $2, $3, $4, $5, now(), true, now()
  WHERE NOT EXISTS (SELECT FROM account WHERE site_id = $1 AND manager AND disabled_at IS NULL)`;

/** Any number that nothing else in this database takes. */
const LOCK = 72_707_370;

/**
 * How a hospital gets its first manager: from the environment, or by a link that the server prints once.
 * The link lives in this process alone: it ends with the process, with its use, or once there is a manager.
 */
export function openFirstAdministrator(pool: Pool, siteId: string) {
  let expected: Buffer | null = null;

  const isNeeded = async () => {
    const text = 'SELECT FROM account WHERE site_id = $1 AND manager AND disabled_at IS NULL LIMIT 1';
    return (await pool.query(text, [siteId])).rowCount === 0;
  };

  /** @returns the new account's id; null where there is a manager already */
  async function make({ login, name, password }: Administrator): Promise<string | null> {
    const id = randomUUID();
    const hash = await hashPassword(password);
    const client = await pool.connect();
    try {
      await client.query('BEGIN');
      // two starts at once must not make two of them
      await client.query('SELECT pg_advisory_xact_lock($1)', [LOCK]);
      const { rowCount } = await client.query(MAKE_FIRST, [siteId, id, login, name, hash]);
      await client.query('COMMIT');
      return rowCount === 1 ? id : null;
    } catch (error) {
      await client.query('ROLLBACK');
      throw error;
    } finally {
      client.release();
    }
  }

  return {
    make,

    /** The token of a new link, which replaces the one before; null where there is a manager already. */
    async issueToken(): Promise<string | null> {
      if (!(await isNeeded())) return null;
      const token = newToken();
      expected = hashToken(token);
      return token;
    },

    /** @returns the new account's id; null when the token is not (or no longer) the one that was issued */
    async redeem(token: string, administrator: Administrator): Promise<string | null> {
      if (expected === null || !timingSafeEqual(expected, hashToken(token))) return null;
      const id = await make(administrator);
      expected = null;
      return id;
    },
  };
}
