import { createHash, randomUUID } from 'node:crypto';
import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import pg from 'pg';
import { migrationsFolder } from './paths.ts';

/** The number Prisma's own engine uses, so that both exclude each other. */
const LOCK = 72_707_369;

const MAKE_TABLE = `CREATE TABLE IF NOT EXISTS _prisma_migrations (
  id varchar(36) PRIMARY KEY, checksum varchar(64) NOT NULL, finished_at timestamptz,
  migration_name varchar(255) NOT NULL, logs text, rolled_back_at timestamptz,
  started_at timestamptz NOT NULL DEFAULT now(), applied_steps_count integer NOT NULL DEFAULT 0)`;

export type Migration = { name: string; sql: string; checksum: string };

/** The migrations of this build, in order. */
export async function readMigrations(folder = migrationsFolder): Promise<Migration[]> {
  const entries = await readdir(folder, { withFileTypes: true });
  const names = entries.filter((entry) => entry.isDirectory()).map((entry) => entry.name);
  return Promise.all(
    names.sort().map(async (name) => {
      const sql = await readFile(join(folder, name, 'migration.sql'), 'utf8');
      return { name, sql, checksum: createHash('sha256').update(sql).digest('hex') };
    }),
  );
}

/**
 * Applies what is missing, each migration in one transaction, and keeps Prisma's own table of them.
 * @param ownerUrl as the owner of the tables
 * @returns the names that were applied
 * @throws when an applied migration was changed afterwards, or one fails (it is rolled back whole)
 */
export async function migrate(ownerUrl: string, migrations?: readonly Migration[]): Promise<string[]> {
  const wanted = migrations ?? (await readMigrations());
  const client = new pg.Client({ connectionString: ownerUrl, application_name: 'slackwater-migrate' });
  await client.connect();
  try {
    await client.query('SELECT pg_advisory_lock($1)', [LOCK]);
    await client.query(MAKE_TABLE);
    const done = await appliedChecksums(client);
    const applied: string[] = [];
    for (const migration of wanted) {
      const before = done.get(migration.name);
      if (before === undefined) {
        await apply(client, migration);
        applied.push(migration.name);
      } else if (before !== migration.checksum) {
        throw new Error(`Migration ${migration.name} was changed after it was applied; write a new one instead.`);
      }
    }
    return applied;
  } finally {
    await client.end();
  }
}

async function appliedChecksums(client: pg.Client): Promise<Map<string, string>> {
  const { rows } = await client.query<{ name: string; checksum: string }>(
    `SELECT migration_name AS name, checksum FROM _prisma_migrations
     WHERE finished_at IS NOT NULL AND rolled_back_at IS NULL`,
  );
  return new Map(rows.map(({ name, checksum }) => [name, checksum]));
}

async function apply(client: pg.Client, { name, sql, checksum }: Migration): Promise<void> {
  try {
    await client.query(`BEGIN;\n${sql}`);
    await client.query(
      `INSERT INTO _prisma_migrations (id, checksum, migration_name, finished_at, applied_steps_count)
       VALUES ($1, $2, $3, clock_timestamp(), 1)`,
      [randomUUID(), checksum, name],
    );
    await client.query('COMMIT');
  } catch (error) {
    await client.query('ROLLBACK');
    throw new Error(`Migration ${name} failed and was rolled back: ${(error as Error).message}`, { cause: error });
  }
}
