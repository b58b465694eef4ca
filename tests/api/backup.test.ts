import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gunzipSync, gzipSync } from 'node:zlib';
import { loadScenario } from '@slackwater/api/demo/scenario';
import { seedDemonstration } from '@slackwater/api/demo/seed';
import { verify } from '@slackwater/api/record/verify';
import { backup } from '@slackwater/tools/backup/backup';
import { restore } from '@slackwater/tools/backup/restore';
import pg from 'pg';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { emptyDatabase, type FreshDatabase, freshDatabase } from '../support/database.ts';

const SITE = 'alder-point';
const tell = () => undefined;
const made: FreshDatabase[] = [];
let source: FreshDatabase;
let folder: string;
let file: string;

const empty = async () => {
  const database = await emptyDatabase();
  made.push(database);
  return database;
};

async function rowsOf(url: string, text: string): Promise<unknown[]> {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  try {
    return (await client.query(text)).rows;
  } finally {
    await client.end();
  }
}

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'slackwater-backup-'));
  file = join(folder, 'ward.backup');
  source = await freshDatabase();
  made.push(source);
  const pool = new pg.Pool({ connectionString: source.appUrl, options: '-c TimeZone=UTC' });
  pool.on('error', () => undefined);
  await seedDemonstration(pool, { id: SITE, name: 'Alder Point Hospital' }, await loadScenario());
  await pool.end();
  await backup(source.ownerUrl, file, tell);
});

afterAll(async () => {
  for (const database of made) await database.drop();
  await rm(folder, { recursive: true, force: true });
});

const CONTENT = `SELECT (SELECT count(*)::int FROM entry) AS entries, (SELECT count(*)::int FROM patient) AS patients,
  (SELECT md5(string_agg(state::text, '' ORDER BY patient_id)) FROM bedside) AS states,
  (SELECT md5(string_agg(bytes::text, '' ORDER BY entry_id)) FROM entry_payload) AS payloads,
  (SELECT string_agg(encode(digest, 'hex'), '' ORDER BY ward_id) FROM ward_counter) AS heads`;

test('a restored database holds the same, its chain verifies, and its boards must start afresh', async () => {
  const target = await empty();
  await restore(target.ownerUrl, file, tell);

  expect(await rowsOf(target.ownerUrl, CONTENT)).toEqual(await rowsOf(source.ownerUrl, CONTENT));
  const pool = new pg.Pool({ connectionString: target.appUrl, options: '-c TimeZone=UTC' });
  pool.on('error', () => undefined);
  const { wards, faults } = await verify(pool, SITE);
  await pool.end();
  expect(faults).toEqual([]);
  expect(wards).toHaveLength(1);
  const epoch = 'SELECT epoch FROM epoch';
  expect(await rowsOf(target.ownerUrl, epoch)).not.toEqual(await rowsOf(source.ownerUrl, epoch));
});

test('a restored database is as append-only as the first', async () => {
  const target = await empty();
  await restore(target.ownerUrl, file, tell);
  await expect(rowsOf(target.appUrl, 'DELETE FROM entry')).rejects.toThrow(/permission denied/);
  await expect(rowsOf(target.ownerUrl, 'DELETE FROM entry')).rejects.toThrow(/append-only/);
});

test('a database that holds something is never restored into', async () => {
  await expect(restore(source.ownerUrl, file, tell)).rejects.toThrow('not empty');
});

test('a damaged backup restores nothing', async () => {
  const bytes = gunzipSync(await readFile(file));
  const at = bytes.indexOf('TREVANION');
  expect(at).toBeGreaterThan(0);
  bytes[at] = 'X'.charCodeAt(0);
  const damaged = join(folder, 'damaged.backup');
  await writeFile(damaged, gzipSync(bytes));
  const target = await empty();
  await expect(restore(target.ownerUrl, damaged, tell)).rejects.toThrow('Table patient of the backup is damaged');
  expect(await rowsOf(target.ownerUrl, 'SELECT count(*)::int AS n FROM site')).toEqual([{ n: 0 }]);
});

test('a backup that is cut short restores nothing', async () => {
  const bytes = gunzipSync(await readFile(file));
  const short = join(folder, 'short.backup');
  await writeFile(short, gzipSync(bytes.subarray(0, Math.floor(bytes.length / 2))));
  const target = await empty();
  await expect(restore(target.ownerUrl, short, tell)).rejects.toThrow('cut short');
  expect(await rowsOf(target.ownerUrl, 'SELECT count(*)::int AS n FROM site')).toEqual([{ n: 0 }]);
});

test('a backup never overwrites a file that is being written', async () => {
  const other = join(folder, 'other.backup');
  await writeFile(`${other}.partial`, '');
  await expect(backup(source.ownerUrl, other, tell)).rejects.toThrow(`${other}.partial is there`);
});

test('a backup never replaces another one', async () => {
  const before = await readFile(file);
  await expect(backup(source.ownerUrl, file, tell)).rejects.toThrow(/is there already/);
  expect(await readFile(file)).toEqual(before);
});
