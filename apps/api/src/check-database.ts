import { randomUUID } from 'node:crypto';
import { readMigrations } from '@slackwater/tools/migrate';
import { UTC_SESSION } from '@slackwater/tools/session';
import pg from 'pg';

const LEAST_VERSION = 180_000;
const ROUND_TRIP_MS = 5_000;

/**
 * Holds the database against what the server relies on, before anything is served from it.
 * @param appUrl as the server signs in
 * @throws one sentence that says what is wrong and what to do: version, encoding, zone, tables, notifications
 */
export async function checkDatabase(appUrl: string): Promise<void> {
  const client = new pg.Client({
    connectionString: appUrl,
    application_name: 'slackwater-check',
    options: UTC_SESSION,
  });
  await client.connect();
  try {
    await checkServer(client);
    await checkTables(client);
    await checkNotifications(client);
  } finally {
    await client.end();
  }
}

async function checkServer(client: pg.Client): Promise<void> {
  const { rows } = await client.query<{ version: number; encoding: string; zone: string }>(
    `SELECT current_setting('server_version_num')::int AS version, current_setting('server_encoding') AS encoding,
       current_setting('TimeZone') AS zone`,
  );
  const found = rows[0];
  if (!found || found.version < LEAST_VERSION)
    throw new Error(`The database is PostgreSQL ${found?.version}; 18 or later is needed.`);
  if (found.encoding !== 'UTF8')
    throw new Error(`The database is encoded in ${found.encoding}: make it anew with ENCODING 'UTF8'.`);
  if (found.zone !== 'UTC')
    throw new Error(`The session's time zone is ${found.zone} though UTC was asked for: a pooler drops our options.`);
}

async function checkTables(client: pg.Client): Promise<void> {
  const wanted = await readMigrations();
  const done = await client
    .query<{ name: string }>('SELECT migration_name AS name FROM _prisma_migrations WHERE finished_at IS NOT NULL')
    .catch((error: pg.DatabaseError) => {
      if (error.code === UNDEFINED_TABLE) return { rows: [] };
      throw error;
    });
  const missing = wanted.filter(({ name }) => !done.rows.some((row) => row.name === name));
  if (missing.length > 0) {
    throw new Error(
      `The database lacks ${missing.length} of ${wanted.length} migrations, from ${missing[0]?.name} on: run "npm run migrate" with DATABASE_OWNER_URL.`,
    );
  }
}

const UNDEFINED_TABLE = '42P01';

/** A pooler that lends a connection for one transaction only takes LISTEN and never delivers. */
async function checkNotifications(client: pg.Client): Promise<void> {
  const channel = `slackwater_check_${randomUUID().replaceAll('-', '')}`;
  const arrived = new Promise<boolean>((resolve) => {
    const timer = setTimeout(() => resolve(false), ROUND_TRIP_MS);
    client.on('notification', () => {
      clearTimeout(timer);
      resolve(true);
    });
  });
  await client.query(`LISTEN ${channel}`);
  await client.query('SELECT pg_notify($1, $2)', [channel, 'here']);
  if (await arrived) return;
  throw new Error(
    'DATABASE_URL delivers no notifications: give a direct or session-pooled address, not a transaction pooler.',
  );
}
