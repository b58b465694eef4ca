import { createHash, randomUUID } from 'node:crypto';
import { once } from 'node:events';
import { finished } from 'node:stream/promises';
import pg from 'pg';
import { from as copyFrom } from 'pg-copy-streams';
import { migrate, readMigrations } from '../migrate.ts';
import { UTC_SESSION } from '../session.ts';
import { type End, FORMAT, FORMAT_VERSION, type Head, type TableHead, type TableTail } from './format.ts';
import { type BackupReader, openBackup } from './reader.ts';
import { quoted } from './tables.ts';

export type RestoreResult = { takenAt: string; tables: number; rows: number };

/**
 * Fills an empty database from a backup, whole or not at all, and brings it up to date. A new epoch is written, so that
 * every board forgets what it knew.
 * @param ownerUrl as the owner of the tables
 * @throws when the database is not empty, or the file is damaged, cut short or of a newer release
 */
export async function restore(
  ownerUrl: string,
  file: string,
  tell: (table: string, rows: number) => void,
): Promise<RestoreResult> {
  const reader = openBackup(file);
  try {
    const head = await readHead(reader, file);
    await refuseFilled(ownerUrl);
    const known = await readMigrations();
    await migrate(
      ownerUrl,
      known.filter(({ name }) => head.migrations.some((one) => one.name === name)),
    );
    const result = await fill(ownerUrl, reader, tell);
    await migrate(ownerUrl, known);
    return { takenAt: head.takenAt, ...result };
  } finally {
    reader.close();
  }
}

async function readHead(reader: BackupReader, file: string): Promise<Head> {
  const head = await reader.line<Head>().catch((error: Error) => {
    if (error instanceof SyntaxError) return null;
    throw new Error(`${file} is no backup of this tool, or cannot be read: ${error.message}`, { cause: error });
  });
  if (head?.format !== FORMAT) throw new Error(`${file} is no backup of this tool.`);
  if (head.version > FORMAT_VERSION)
    throw new Error(`${file} has format ${head.version}; this release reads up to ${FORMAT_VERSION}.`);
  const known = await readMigrations();
  const unknown = head.migrations.find(
    (one) => !known.some(({ name, checksum }) => name === one.name && checksum === one.checksum),
  );
  if (unknown)
    throw new Error(
      `${file} stands at migration ${unknown.name}, which this release does not know: use the release that wrote it, or a later one.`,
    );
  return head;
}

async function refuseFilled(ownerUrl: string): Promise<void> {
  const client = await connect(ownerUrl);
  try {
    const { rows } = await client.query<{ filled: boolean }>(`SELECT to_regclass('public.site') IS NOT NULL AS filled`);
    if (!rows[0]?.filled) return;
    const { rowCount } = await client.query('SELECT FROM site LIMIT 1');
    if (rowCount)
      throw new Error('This database is not empty. A restore fills an empty one only: nothing was changed.');
  } finally {
    await client.end();
  }
}

async function fill(ownerUrl: string, reader: BackupReader, tell: (table: string, rows: number) => void) {
  const client = await connect(ownerUrl);
  try {
    await client.query('BEGIN');
    let tables = 0;
    let rows = 0;
    for (;;) {
      const next = await reader.line<TableHead | End>();
      if ('end' in next) {
        if (next.tables !== tables) throw new Error(`The backup holds ${tables} tables of ${next.tables}.`);
        break;
      }
      const filled = await fillTable(client, reader, next);
      tell(next.table, filled);
      tables += 1;
      rows += filled;
    }
    await client.query('UPDATE epoch SET epoch = $1, started_at = clock_timestamp()', [randomUUID()]);
    await client.query('COMMIT');
    return { tables, rows };
  } catch (error) {
    await client.query('ROLLBACK').catch(() => undefined);
    throw error;
  } finally {
    await client.end();
  }
}

async function fillTable(client: pg.Client, reader: BackupReader, { table, columns }: TableHead): Promise<number> {
  const hash = createHash('sha256');
  const copy = client.query(copyFrom(`COPY ${quoted([table])} (${quoted(columns)}) FROM STDIN`));
  const done = finished(copy);
  done.catch(() => undefined);
  try {
    for (let block = await reader.block(); block !== null; block = await reader.block()) {
      hash.update(block);
      if (!copy.write(block)) await Promise.race([once(copy, 'drain'), done]);
    }
  } catch (error) {
    // an open COPY would keep the connection waiting for ever
    copy.destroy();
    throw error;
  }
  copy.end();
  await done;
  const tail = await reader.line<TableTail>();
  if (tail.sha256 !== hash.digest('hex'))
    throw new Error(`Table ${table} of the backup is damaged: its checksum differs. Nothing was restored.`);
  if (tail.rows !== copy.rowCount)
    throw new Error(`Table ${table} of the backup holds ${copy.rowCount} rows of ${tail.rows}.`);
  return tail.rows;
}

async function connect(url: string): Promise<pg.Client> {
  const client = new pg.Client({
    connectionString: url,
    application_name: 'slackwater-restore',
    options: UTC_SESSION,
  });
  await client.connect();
  return client;
}
