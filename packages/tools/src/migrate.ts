// Applies prisma/migrations/*/migration.sql, each in one transaction, and keeps Prisma's own table of them.
import { createHash, randomUUID } from 'node:crypto';
import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import pg from 'pg';

export const migrationsDir = join(import.meta.dirname, '../../../prisma/migrations');
const lockId = 72707369; // the number Prisma's own engine uses, so that both exclude each other

export async function migrate(url: string): Promise<string[]> {
  const names = (await readdir(migrationsDir, { withFileTypes: true }))
    .filter((d) => d.isDirectory())
    .map((d) => d.name)
    .sort();
  const client = new pg.Client({ connectionString: url, application_name: 'slackwater-migrate' });
  await client.connect();
  const applied: string[] = [];
  try {
    await client.query('SELECT pg_advisory_lock($1)', [lockId]);
    await client.query(`CREATE TABLE IF NOT EXISTS _prisma_migrations (
      id varchar(36) PRIMARY KEY, checksum varchar(64) NOT NULL, finished_at timestamptz, migration_name varchar(255) NOT NULL,
      logs text, rolled_back_at timestamptz, started_at timestamptz NOT NULL DEFAULT now(), applied_steps_count integer NOT NULL DEFAULT 0)`);
    const done = new Map(
      (
        await client.query(
          'SELECT migration_name n, checksum c FROM _prisma_migrations WHERE finished_at IS NOT NULL AND rolled_back_at IS NULL',
        )
      ).rows.map((r: { n: string; c: string }) => [r.n, r.c]),
    );
    for (const name of names) {
      const sql = await readFile(join(migrationsDir, name, 'migration.sql'), 'utf8');
      const checksum = createHash('sha256').update(sql).digest('hex');
      if (done.has(name)) {
        if (done.get(name) !== checksum)
          throw new Error(`Migration ${name} was changed after it was applied; write a new one instead.`);
        continue;
      }
      try {
        await client.query(`BEGIN;\n${sql}`);
        await client.query(
          'INSERT INTO _prisma_migrations (id, checksum, migration_name, finished_at, applied_steps_count) VALUES ($1,$2,$3,clock_timestamp(),1)',
          [randomUUID(), checksum, name],
        );
        await client.query('COMMIT');
      } catch (error) {
        await client.query('ROLLBACK');
        throw new Error(`Migration ${name} failed and was rolled back: ${(error as Error).message}`, { cause: error });
      }
      applied.push(name);
    }
    return applied;
  } finally {
    await client.end();
  }
}
