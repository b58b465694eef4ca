import { chmod, mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { startCluster } from '@slackwater/tools/cluster';
import { migrate } from '@slackwater/tools/migrate';
import { ensureRolesAndDatabase, rolePasswords, urlFor } from '@slackwater/tools/roles';
import pg from 'pg';

export type BenchDatabase = {
  /** As the server signs in. */
  appUrl: string;
  /** As the cluster's superuser, for what is counted and for history made up in bulk. */
  superUrl: string;
  drop(): Promise<void>;
};

export type BenchDatabases = {
  /** A migrated database with nothing in it. */
  open(): Promise<BenchDatabase>;
  version: string;
  stop(): Promise<void>;
};

const TEMPLATE = 'bench_template';

/** A cluster of its own, set as a ward's is: fsync on, nothing traded for speed. */
export async function openDatabases(): Promise<BenchDatabases> {
  const folder = await mkdtemp(join(tmpdir(), 'slackwater-bench-'));
  await chmod(folder, 0o755);
  const cluster = await startCluster(folder);
  const passwords = await rolePasswords(folder);
  await ensureRolesAndDatabase(cluster, passwords, TEMPLATE);
  await migrate(urlFor(cluster.port, 'slackwater_owner', passwords, TEMPLATE));
  const [{ version, safe }] = await ask(
    cluster.url(),
    'SELECT current_setting($1) AS version, current_setting($2) AS safe',
    ['server_version', 'fsync'],
  );
  if (safe !== 'on') throw new Error('The bench measures with fsync on.');
  let made = 0;
  return {
    version,
    async open() {
      made += 1;
      const name = `bench_${made}`;
      await ask(cluster.url(), `CREATE DATABASE ${name} TEMPLATE ${TEMPLATE} OWNER slackwater_owner`);
      return {
        appUrl: urlFor(cluster.port, 'slackwater_app', passwords, name),
        superUrl: cluster.url(name),
        drop: () => ask(cluster.url(), `DROP DATABASE ${name} WITH (FORCE)`).then(() => undefined),
      };
    },
    async stop() {
      await cluster.stop();
      await rm(folder, { recursive: true, force: true });
    },
  };
}

async function ask(url: string, text: string, values: readonly string[] = []) {
  const client = new pg.Client({ connectionString: url, application_name: 'bench' });
  await client.connect();
  try {
    return (await client.query(text, [...values])).rows;
  } finally {
    await client.end();
  }
}

/** A pool as the server has one. */
export const pool = (url: string, max = 4): pg.Pool => {
  const made = new pg.Pool({ connectionString: url, max, options: '-c TimeZone=UTC', application_name: 'bench' });
  // a dropped database ends its idle connections: nothing to be told of
  made.on('error', () => undefined);
  return made;
};
