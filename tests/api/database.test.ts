import pg from 'pg';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type FreshDatabase, freshDatabase } from '../support/database.ts';

let database: FreshDatabase;
beforeAll(async () => {
  database = await freshDatabase();
});
afterAll(() => database.drop());

test('a fresh database is migrated, in UTF-8 and in UTC', async () => {
  const client = new pg.Client({ connectionString: database.appUrl });
  await client.connect();
  const { rows } = await client.query(
    `SELECT current_user AS role, current_setting('server_encoding') AS encoding, current_setting('TimeZone') AS zone,
       (SELECT count(*)::int FROM entry) AS entries`,
  );
  await client.end();
  expect(rows).toEqual([{ role: 'slackwater_app', encoding: 'UTF8', zone: 'UTC', entries: 0 }]);
});
