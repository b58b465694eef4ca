import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { catalogText } from '@slackwater/tools/catalog';
import { diffSql } from '@slackwater/tools/engine';
import { projectRoot } from '@slackwater/tools/paths';
import pg from 'pg';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { emptyDatabase, type FreshDatabase, freshDatabase } from '../support/database.ts';

let migrated: FreshDatabase;
let fromSchema: FreshDatabase;

beforeAll(async () => {
  migrated = await freshDatabase();
  fromSchema = await emptyDatabase();
  await query(fromSchema.ownerUrl, await diffSql(fromSchema.ownerUrl, 'nothing', 'schema'));
}, 60_000);

afterAll(async () => {
  await migrated.drop();
  await fromSchema.drop();
});

async function query(url: string, sql: string): Promise<Record<string, unknown>[]> {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  try {
    return (await client.query(sql)).rows;
  } finally {
    await client.end();
  }
}

test('prisma/schema.sql is what the migrations make (npm run schema writes it)', async () => {
  const written = await readFile(join(projectRoot, 'prisma/schema.sql'), 'utf8');
  expect(written).toBe(await catalogText(migrated.ownerUrl));
}, 60_000);

const COLUMNS = `SELECT table_name, column_name, data_type, udt_name, is_nullable, column_default
  FROM information_schema.columns WHERE table_schema = 'public' AND table_name <> '_prisma_migrations'
  ORDER BY table_name, column_name`;
const KEYS = `SELECT conrelid::regclass::text AS "table", conname AS name, pg_get_constraintdef(oid) AS definition
  FROM pg_constraint WHERE contype IN ('p', 'f') AND connamespace = 'public'::regnamespace
    AND conrelid::regclass::text <> '_prisma_migrations' ORDER BY 1, 2`;
const INDEXES = `SELECT tablename, indexname, indexdef FROM pg_indexes
  WHERE schemaname = 'public' AND tablename <> '_prisma_migrations' ORDER BY 1, 2`;

test('schema.prisma has every column of the migrations, with the same type and default', async () => {
  expect(await query(fromSchema.ownerUrl, COLUMNS)).toEqual(await query(migrated.ownerUrl, COLUMNS));
});

test('every key and index of schema.prisma stands in the migrations', async () => {
  const keys = await query(migrated.ownerUrl, KEYS);
  for (const key of await query(fromSchema.ownerUrl, KEYS)) expect(keys).toContainEqual(key);
  const indexes = await query(migrated.ownerUrl, INDEXES);
  for (const index of await query(fromSchema.ownerUrl, INDEXES)) expect(indexes).toContainEqual(index);
});

test('every primary and foreign key starts with the site', async () => {
  const keys = await query(migrated.ownerUrl, KEYS);
  expect(keys.length).toBeGreaterThan(30);
  for (const { table, definition } of keys) {
    if (table === 'site') continue;
    expect(`${table}: ${definition}`).toMatch(/: (PRIMARY|FOREIGN) KEY \(site_id\b/);
  }
});
