import { HOUR_MS } from '@slackwater/domain';
import type pg from 'pg';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type FreshDatabase, freshDatabase } from '../support/database.ts';
import { close, exchange, inBed, mustAppend, pool, type TestWard, testWard } from './record-ward.ts';

let database: FreshDatabase;
let db: pg.Pool;
let ward: TestWard;
beforeAll(async () => {
  database = await freshDatabase();
  db = pool(database.appUrl);
  ward = await testWard(db);
  const bed = await inBed(ward, '1', Date.now() - 6 * HOUR_MS);
  await mustAppend(ward, ward.actors.nurse, exchange(bed, Date.now() - HOUR_MS, null));
});
afterAll(async () => {
  await close(db);
  await database.drop();
});

const everything = async () =>
  (
    await db.query(
      'SELECT md5(string_agg(entry::text || payload::text, chr(10) ORDER BY entry.id)) AS all FROM entry JOIN entry_payload AS payload ON payload.entry_id = entry.id',
    )
  ).rows[0].all;

// Through the server's own address and role, as somebody who holds its password could try.
test.each([
  ['UPDATE entry', "UPDATE entry SET kind = 'told'"],
  ['UPDATE entry_payload', "UPDATE entry_payload SET bytes = '{}'"],
  ['DELETE entry', 'DELETE FROM entry'],
  ['DELETE entry_payload', 'DELETE FROM entry_payload'],
  ['DELETE refused_entry', 'DELETE FROM refused_entry'],
  ['DELETE audit', 'DELETE FROM audit'],
  ['TRUNCATE entry', 'TRUNCATE entry CASCADE'],
  ['TRUNCATE entry_payload', 'TRUNCATE entry_payload'],
  ['switching the trigger off', 'ALTER TABLE entry DISABLE TRIGGER append_only'],
  ['switching all triggers off', 'ALTER TABLE entry DISABLE TRIGGER ALL'],
  ['playing a replica', "SET session_replication_role = 'replica'"],
  ['dropping the trigger', 'DROP TRIGGER append_only ON entry'],
  [
    'another trigger function',
    'CREATE OR REPLACE FUNCTION refuse_change() RETURNS trigger LANGUAGE sql AS $$ SELECT 1 $$',
  ],
  ['another chain function', 'DROP FUNCTION chain_digests'],
  ['ALTER TABLE', 'ALTER TABLE entry DROP COLUMN digest'],
  ['DROP TABLE', 'DROP TABLE entry CASCADE'],
  ['CREATE TABLE', 'CREATE TABLE mine (id integer)'],
  ['CREATE SCHEMA', 'CREATE SCHEMA mine'],
  ['granting itself more', 'GRANT ALL ON entry TO slackwater_app'],
  ['becoming the owner', 'SET ROLE slackwater_owner'],
] as const)('%s is refused to the server', async (_, sql) => {
  const before = await everything();
  // A GRANT of what one does not hold is a warning and changes nothing; the rest are errors.
  if (sql.startsWith('GRANT')) {
    await db.query(sql).catch(() => {});
    await expect(db.query("UPDATE entry SET kind = 'told'")).rejects.toThrow(/permission denied|append-only/);
  } else {
    await expect(db.query(sql)).rejects.toThrow(/permission denied|append-only|must be owner|cannot set|not allowed/i);
  }
  expect(await everything()).toBe(before);
});

test('even the owner changes no entry', async () => {
  const owner = pool(database.ownerUrl, 1);
  const before = await everything();
  for (const sql of [
    "UPDATE entry SET kind = 'told'",
    'DELETE FROM entry',
    'TRUNCATE entry CASCADE',
    "UPDATE entry_payload SET bytes = '{}'",
    'TRUNCATE entry_payload',
  ]) {
    await expect(owner.query(sql)).rejects.toThrow(/append-only/);
  }
  await close(owner);
  expect(await everything()).toBe(before);
});

test('the reader reads the record, and neither passwords nor sessions', async () => {
  const reader = pool(database.readerUrl, 1);
  expect((await reader.query('SELECT count(*)::int AS n FROM entry')).rows[0].n).toBeGreaterThan(0);
  await expect(reader.query('SELECT password_hash FROM account')).rejects.toThrow(/permission denied/);
  await expect(reader.query('SELECT * FROM session')).rejects.toThrow(/permission denied/);
  await expect(reader.query("INSERT INTO site VALUES ('x', 'x')")).rejects.toThrow(/permission denied/);
  await close(reader);
});
