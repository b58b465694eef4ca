// A standby that is promoted may lack the last positions: whatever board saw them must start afresh. The same cluster is
// started as a standby of nobody and promoted, which begins a new timeline as a promotion does anywhere.
import { randomUUID } from 'node:crypto';
import { rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { READ_POSITIONS } from '@slackwater/api/live/board.sql';
import { openSite, openWard } from '@slackwater/api/record/open-ward';
import { STANDARD_FORMULARY } from '@slackwater/domain';
import { type Cluster, startCluster } from '@slackwater/tools/cluster';
import { migrate } from '@slackwater/tools/migrate';
import { ensureRolesAndDatabase, rolePasswords, urlFor } from '@slackwater/tools/roles';
import pg from 'pg';
import { afterAll, beforeAll, expect, test } from 'vitest';

const data = join(tmpdir(), `slackwater-promoted-${randomUUID()}`);
const NAME = 'slackwater';
let cluster: Cluster;
beforeAll(async () => {
  cluster = await startCluster(data);
});
afterAll(async () => {
  await cluster.stop();
  await rm(data, { recursive: true, force: true });
});

async function asApp<T>(use: (pool: pg.Pool) => Promise<T>): Promise<T> {
  const url = urlFor(cluster.port, 'slackwater_app', await rolePasswords(data), NAME);
  const pool = new pg.Pool({ connectionString: url, max: 1 });
  try {
    return await use(pool);
  } finally {
    await pool.end();
  }
}

const positions = () =>
  asApp(async (pool) => (await pool.query({ ...READ_POSITIONS, values: ['alder-point'] })).rows[0]);

test('a promoted standby is another epoch, at the very same position', { timeout: 60_000 }, async () => {
  const passwords = await rolePasswords(data);
  await ensureRolesAndDatabase(cluster, passwords, NAME);
  await migrate(urlFor(cluster.port, 'slackwater_owner', passwords, NAME));
  await asApp(async (pool) => {
    await openSite(pool, { id: 'alder-point', name: 'Alder Point Hospital' }, STANDARD_FORMULARY);
    const ward = { siteId: 'alder-point', id: 'kestrel', name: 'Kestrel Ward', zone: 'Europe/London' };
    await openWard(pool, { ...ward, shiftStarts: ['07:00', '19:00'], beds: ['1'] });
  });
  const before = await positions();
  expect(await positions()).toMatchObject({ epoch: before.epoch });

  await cluster.stop();
  await writeFile(join(data, 'pg/standby.signal'), '');
  cluster = await startCluster(data);
  const superuser = new pg.Client({ connectionString: cluster.url(NAME) });
  await superuser.connect();
  await superuser.query('SELECT pg_promote()');
  await superuser.end();

  const after = await positions();
  expect(after.position).toBe(before.position);
  expect(after.epoch).not.toBe(before.epoch);
});
