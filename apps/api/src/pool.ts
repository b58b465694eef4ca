import { WORKING_SESSION } from '@slackwater/tools/session';
import pg from 'pg';

/**
 * A pool of working sessions in UTC that outlives the loss of any connection: without somebody who hears of it, one that the
 * database ends would end the process, be it idle or lent to somebody who is between two statements.
 * @param onIdleLost hears of idle ones; of a lent one its next statement tells
 */
export function openPool(
  connection: { url: string; name: string; max: number },
  onIdleLost: (error: Error) => void,
): pg.Pool {
  const { url, name, max } = connection;
  const pool = new pg.Pool({
    connectionString: url,
    options: WORKING_SESSION,
    application_name: name,
    max,
    // connections stay: a new one has to sign in, and plans every statement anew
    idleTimeoutMillis: 0,
  });
  pool.on('error', onIdleLost);
  pool.on('connect', (client) => client.on('error', () => undefined));
  return pool;
}
