// Commands killed (SIGKILL), or out of space, in the middle: what they left behind, and whether doing it again is whole. Each is killed
// where it is halfway through its work: a table that it needs is held until it waits for it.
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { access, mkdtemp, readdir, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { loadScenario } from '@slackwater/api/demo/scenario';
import { seedDemonstration } from '@slackwater/api/demo/seed';
import { verify } from '@slackwater/api/record/verify';
import { backup } from '@slackwater/tools/backup/backup';
import { restore } from '@slackwater/tools/backup/restore';
import { catalogText } from '@slackwater/tools/catalog';
import { migrate, readMigrations } from '@slackwater/tools/migrate';
import { projectRoot } from '@slackwater/tools/paths';
import pg from 'pg';
import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import { importCsv, month } from '../api/import-ward.ts';
import { close, pool, SITE, testWard } from '../api/record-ward.ts';
import { emptyDatabase, type FreshDatabase, freshDatabase } from '../support/database.ts';
import { killAt, settingsFor } from './kill-at.ts';

// whole processes start here, on a machine that may be busy
vi.setConfig({ testTimeout: 120_000, hookTimeout: 60_000 });

const made: FreshDatabase[] = [];
let folder: string;
/** Of the demonstration. */
let ward: FreshDatabase;

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'slackwater-killed-'));
  ward = await kept(freshDatabase());
  const db = pool(ward.appUrl);
  await seedDemonstration(db, { id: SITE, name: 'Alder Point Hospital' }, await loadScenario());
  await close(db);
});
afterAll(async () => {
  for (const database of made) await database.drop();
  await rm(folder, { recursive: true, force: true });
});

async function kept(making: Promise<FreshDatabase>): Promise<FreshDatabase> {
  const database = await making;
  made.push(database);
  return database;
}

async function rowsOf(url: string, text: string): Promise<Record<string, unknown>[]> {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  try {
    return (await client.query(text)).rows;
  } finally {
    await client.end();
  }
}

const isThere = (file: string) =>
  access(file).then(
    () => true,
    () => false,
  );

const CONTENT = `SELECT (SELECT count(*)::int FROM entry) AS entries, (SELECT count(*)::int FROM patient) AS patients,
  (SELECT md5(string_agg(state::text, '' ORDER BY patient_id)) FROM bedside) AS states,
  (SELECT count(*)::int FROM dwell) AS dwells, (SELECT count(*)::int FROM import_row) AS staged,
  (SELECT string_agg(encode(digest, 'hex'), '' ORDER BY ward_id) FROM ward_counter) AS heads`;

const tell = () => undefined;
const SITES = 'SELECT count(*)::int AS sites FROM site';

test('a migration killed in the middle leaves nothing of itself, and the next run goes on from there', async () => {
  const database = await kept(emptyDatabase());
  const all = await readMigrations();
  const names = all.map(({ name }) => name);
  await migrate(database.ownerUrl, all.slice(0, 1));
  // the next one that changes this table is not the next of all
  await killAt('prescription_item', database, { name: 'migrate', worksAs: 'slackwater-migrate' });
  const applied = 'SELECT migration_name AS name FROM _prisma_migrations ORDER BY name';
  const before = (await rowsOf(database.ownerUrl, applied)).map(({ name }) => name);
  expect(before).toEqual(names.slice(0, names.indexOf('20261125151000_additives')));

  expect(await migrate(database.ownerUrl)).toEqual(names.slice(before.length));
  expect(await catalogText(database.ownerUrl)).toBe(await catalogText(ward.ownerUrl));
});

test('an import killed while it reads or publishes leaves nothing, and the same files then come in whole', async () => {
  const database = await kept(freshDatabase());
  const db = pool(database.appUrl);
  await testWard(db);
  const before = await rowsOf(database.superUrl, CONTENT);
  const args = ['kestrel-month.csv', '--create-patients', 'kestrel-month-people.csv'].map((argument) =>
    argument.startsWith('--') ? argument : join(projectRoot, 'shared/scenario', argument),
  );
  for (const table of ['import_row', 'entry_payload']) {
    await killAt(table, database, { name: 'import', args, worksAs: 'slackwater-command' });
    expect(await rowsOf(database.superUrl, CONTENT)).toEqual(before);
  }
  const { sheet, people } = await month();
  expect(await importCsv(db, sheet, people)).toMatchObject({ imported: { rows: 2390, added: 2390, peopleAdded: 24 } });
  expect((await verify(db, SITE)).faults).toEqual([]);
  await close(db);
});

test('a backup killed in the middle never stands under its name, says so when tried again, and is not restored', async () => {
  const file = join(folder, 'killed.backup');
  await killAt('session', ward, { name: 'backup', args: [file], worksAs: 'slackwater-backup' });
  expect(await isThere(file)).toBe(false);
  await expect(backup(ward.ownerUrl, file, tell)).rejects.toThrow(`${file}.partial is there`);

  const target = await kept(freshDatabase());
  await expect(restore(target.ownerUrl, `${file}.partial`, tell)).rejects.toThrow(`${file}.partial is cut short`);
  expect(await rowsOf(target.ownerUrl, SITES)).toEqual([{ sites: 0 }]);
});

test('a backup that finds no space ends, says so, and leaves nothing behind', async () => {
  const file = join(folder, 'large.backup');
  const command = join(projectRoot, 'apps/api/src/commands/backup.ts');
  // a limit to what one file may hold, which needs nobody's leave: the write fails as on a full disk
  const shell = `ulimit -f 32 && exec "$0" "$@"`;
  const env = { PATH: process.env.PATH, ...settingsFor(ward) };
  const run = spawn('sh', ['-c', shell, process.execPath, command, file], { env, cwd: projectRoot });
  let said = '';
  run.stderr.on('data', (chunk) => {
    said += chunk;
  });
  const [code] = await once(run, 'close');
  expect(said.trim()).toBe(`There is no space left for the backup ${file} (EFBIG): nothing was kept of it.`);
  expect(code).toBe(1);
  expect((await readdir(folder)).filter((name) => name.startsWith('large'))).toEqual([]);
});

test('a restore killed in the middle leaves the database empty, and the same file is then restored whole', async () => {
  const file = join(folder, 'ward.backup');
  await backup(ward.ownerUrl, file, tell);
  const target = await kept(freshDatabase());
  await killAt('session', target, { name: 'restore', args: [file], worksAs: 'slackwater-restore' });
  expect(await rowsOf(target.ownerUrl, SITES)).toEqual([{ sites: 0 }]);
  await restore(target.ownerUrl, file, tell);
  expect(await rowsOf(target.superUrl, CONTENT)).toEqual(await rowsOf(ward.superUrl, CONTENT));
});
