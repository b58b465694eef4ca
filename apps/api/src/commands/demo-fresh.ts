// npm run demo:fresh: a new demonstration as of now, in place of the old one. Refuses what is not a demonstration.
import pg from 'pg';
import { loadScenario } from '../demo/scenario.ts';
import { seedDemonstration } from '../demo/seed.ts';
import { ownerOf, runCommand } from './command.ts';

await runCommand(async ({ config, database, pool }) => {
  if (!config.demonstration) throw new Error('The demonstration is off (SLACKWATER_DEMO): nothing was changed.');
  await emptyDemonstration(ownerOf(database, 'demo:fresh'), config.site.id);
  const begun = performance.now();
  await seedDemonstration(pool, config.site, await loadScenario());
  console.log(`A fresh demonstration stands: ${((performance.now() - begun) / 1000).toFixed(1)} s.`);
});

/** Empties every table of a database that holds a demonstration and nothing else. */
async function emptyDemonstration(ownerUrl: string, siteId: string): Promise<void> {
  const client = new pg.Client({ connectionString: ownerUrl, application_name: 'slackwater-demo-fresh' });
  await client.connect();
  try {
    const { rows: sites } = await client.query<{ id: string; marked: boolean }>(
      'SELECT site.id, demonstration.site_id IS NOT NULL AS marked FROM site LEFT JOIN demonstration ON demonstration.site_id = site.id',
    );
    const real = sites.find((site) => !site.marked || site.id !== siteId);
    if (real)
      throw new Error(
        `The hospital ${real.id} in this database is not marked as this demonstration: nothing was changed.`,
      );
    const { rows: tables } = await client.query<{ name: string }>(
      `SELECT quote_ident(relname) AS name FROM pg_class
       WHERE relkind = 'r' AND relnamespace = 'public'::regnamespace AND relname <> '_prisma_migrations'`,
    );
    // the owner alone may lift the append-only triggers, inside one transaction, on a database of invented people
    await client.query('BEGIN');
    const { rows: guards } = await client.query<{ table: string; name: string }>(
      `SELECT tgrelid::regclass::text AS table, quote_ident(tgname) AS name FROM pg_trigger WHERE NOT tgisinternal`,
    );
    for (const { table, name } of guards) await client.query(`ALTER TABLE ${table} DISABLE TRIGGER ${name}`);
    await client.query(`TRUNCATE ${tables.map(({ name }) => name).join(', ')}`);
    for (const { table, name } of guards) await client.query(`ALTER TABLE ${table} ENABLE ALWAYS TRIGGER ${name}`);
    await client.query('COMMIT');
  } finally {
    await client.end();
  }
}
