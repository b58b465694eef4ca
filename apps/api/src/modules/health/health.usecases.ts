import type { Ready } from '@slackwater/contract';
import { readMigrations } from '@slackwater/tools/migrate';
import type { Pool } from 'pg';

type Row = { postgres: string; now_ms: number; epoch: string | null; applied: string | null; done: number };

/** $1 site */
const HEALTH = {
  name: 'health',
  text: `
    SELECT current_setting('server_version') AS postgres, floor(extract(epoch FROM now()) * 1000)::float8 AS now_ms,
      (SELECT epoch FROM epoch WHERE site_id = $1) AS epoch,
      (SELECT max(migration_name) FROM _prisma_migrations WHERE finished_at IS NOT NULL) AS applied,
      (SELECT count(*)::int FROM _prisma_migrations WHERE finished_at IS NOT NULL AND rolled_back_at IS NULL) AS done`,
};

type Known = { build: string; alarmsThrough: number | null };

/** What stands behind this server, for the signed in. Where the database does not answer, it says "not ready". */
export async function health(pool: Pool, siteId: string, { build, alarmsThrough }: Known): Promise<Ready> {
  const own = { build, node: process.versions.node, timeZoneData: process.versions.tz ?? 'unknown', alarmsThrough };
  try {
    const { rows } = await pool.query<Row>({ ...HEALTH, values: [siteId] });
    const { postgres, now_ms, epoch, applied, done } = rows[0]!;
    const waiting = Math.max(0, (await readMigrations()).length - done);
    return {
      status: waiting === 0 ? 'ready' : 'notReady',
      ...own,
      postgres,
      migrations: { applied, waiting },
      epoch,
      serverAt: now_ms,
    };
  } catch {
    return { status: 'notReady', ...own, postgres: null, migrations: null, epoch: null, serverAt: Date.now() };
  }
}
