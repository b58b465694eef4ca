import { randomBytes } from 'node:crypto';
import type { Cluster } from '@slackwater/tools/cluster';
import { migrate, readMigrations } from '@slackwater/tools/migrate';
import { ensureRolesAndDatabase, type RolePasswords, rolePasswords, urlFor } from '@slackwater/tools/roles';
import pg from 'pg';
import { inject } from 'vitest';
import { openTestCluster } from './test-cluster.ts';

export type FreshDatabase = {
  name: string;
  /** As the server signs in. */
  appUrl: string;
  /** As migrations do. */
  ownerUrl: string;
  readerUrl: string;
  /** As the cluster's superuser. */
  superUrl: string;
  drop(): Promise<void>;
};

let opened: ReturnType<typeof open> | undefined;

/** A migrated database of its own, copied from the run's template. */
export async function freshDatabase(): Promise<FreshDatabase> {
  opened ??= open(inject('clusterFolder'));
  const { cluster, passwords, template } = await opened;
  const name = newName();
  await asSuperuser(cluster, (client) =>
    client.query(`CREATE DATABASE ${name} TEMPLATE ${template} STRATEGY FILE_COPY OWNER slackwater_owner`),
  );
  return described(cluster, passwords, name);
}

/** A database with the roles but no tables: what a first migration or a restore meets. */
export async function emptyDatabase(): Promise<FreshDatabase> {
  opened ??= open(inject('clusterFolder'));
  const { cluster, passwords } = await opened;
  const name = newName();
  await ensureRolesAndDatabase(cluster, passwords, name);
  return described(cluster, passwords, name);
}

const newName = () => `test_${randomBytes(8).toString('hex')}`;

const described = (cluster: Cluster, passwords: RolePasswords, name: string): FreshDatabase => ({
  name,
  appUrl: urlFor(cluster.port, 'slackwater_app', passwords, name),
  ownerUrl: urlFor(cluster.port, 'slackwater_owner', passwords, name),
  readerUrl: urlFor(cluster.port, 'slackwater_reader', passwords, name),
  superUrl: cluster.url(name),
  drop: () => asSuperuser(cluster, (client) => client.query(`DROP DATABASE IF EXISTS ${name} WITH (FORCE)`)),
});

async function open(folder: string) {
  const cluster = await openTestCluster(folder);
  const passwords = await rolePasswords(folder);
  const migrations = await readMigrations();
  const template = `template_${migrations.at(-1)?.checksum.slice(0, 12) ?? 'empty'}`;
  await ensureRolesAndDatabase(cluster, passwords, template);
  await migrate(urlFor(cluster.port, 'slackwater_owner', passwords, template), migrations);
  return { cluster, passwords, template };
}

async function asSuperuser(cluster: Cluster, use: (client: pg.Client) => Promise<unknown>): Promise<void> {
  const client = new pg.Client({ connectionString: cluster.url(), application_name: 'slackwater-test' });
  await client.connect();
  try {
    await client.query('SELECT pg_advisory_lock(72707367)');
    await use(client);
  } finally {
    await client.end();
  }
}
