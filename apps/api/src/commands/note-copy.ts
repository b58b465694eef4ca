import type { AuditKind } from '@slackwater/contract';
import type pg from 'pg';

/** $1 action, $2 detail. A copy holds every hospital of the database: each finds it in its own audit. */
const NOTE = `
INSERT INTO audit (site_id, id, at, action, detail)
SELECT id, gen_random_uuid(), clock_timestamp(), $1, $2 FROM site`;

const READ_ONLY = '25006';

/**
 * Notes in the audit that all tables were copied out, or in, by a command on the server itself.
 * @returns whether it could be noted: a standby takes no writes
 */
export async function noteCopy(
  pool: pg.Pool,
  action: Extract<AuditKind, 'backedUp' | 'restored'>,
  detail: Readonly<Record<string, string | number>>,
): Promise<boolean> {
  try {
    await pool.query(NOTE, [action, detail]);
    return true;
  } catch (error) {
    if ((error as pg.DatabaseError).code === READ_ONLY) return false;
    throw error;
  }
}
