import { createHash } from 'node:crypto';
import { once } from 'node:events';
import { createWriteStream } from 'node:fs';
import { access, link, rm } from 'node:fs/promises';
import { pipeline } from 'node:stream/promises';
import { createGzip, type Gzip } from 'node:zlib';
import pg from 'pg';
import { to as copyTo } from 'pg-copy-streams';
import { UTC_SESSION } from '../session.ts';
import { type End, FORMAT, FORMAT_VERSION, type Head, type TableTail } from './format.ts';
import { quoted, tablesInOrder } from './tables.ts';

export type BackupResult = { tables: number; rows: number; bytes: number };

/**
 * Writes every table into one file, as it stood at one instant, while the ward works (one repeatable-read
 * transaction). The file appears under its name only once it is whole.
 * @param url any role that may read all tables
 * @param tell progress, one call a table
 * @throws when the file is there already, or cannot be written
 */
export async function backup(
  url: string,
  file: string,
  tell: (table: string, rows: number) => void,
): Promise<BackupResult> {
  await refuseExisting(file);
  const client = new pg.Client({
    connectionString: url,
    application_name: 'slackwater-backup',
    options: UTC_SESSION,
  });
  const partial = `${file}.partial`;
  const gzip = createGzip();
  const out = createWriteStream(partial, { flags: 'wx', mode: 0o600 });
  // a pipeline, unlike a pipe, passes the failure of a full disk on to who writes
  const written = pipeline(gzip, out);
  written.catch(() => undefined);
  try {
    await once(out, 'open');
    await client.connect();
    const result = await writeTables(client, gzip, tell);
    gzip.end();
    await written;
    // a link, unlike a renaming, never puts it in the place of another backup
    await link(partial, file);
    await rm(partial);
    return { ...result, bytes: out.bytesWritten };
  } catch (error) {
    gzip.destroy();
    out.destroy();
    throw await putAway(error as NodeJS.ErrnoException, file, partial);
  } finally {
    await client.end();
  }
}

/** Leaves nothing half behind, but what somebody else is writing. @returns what is to be said */
async function putAway(error: NodeJS.ErrnoException, file: string, partial: string): Promise<Error> {
  if (error.code === 'EEXIST' && error.path === partial && error.syscall === 'open')
    return new Error(
      `${partial} is there: another backup of this name is being written, or one was cut off. ` +
        'Where none is being written, delete it; else choose another name. Nothing was written.',
      { cause: error },
    );
  if (error.code !== 'EEXIST') await rm(partial, { force: true });
  if (NO_SPACE.has(error.code ?? ''))
    return new Error(`There is no space left for the backup ${file} (${error.code}): nothing was kept of it.`, {
      cause: error,
    });
  return error;
}

/** The disk is full, this account's share of it, or what one file may hold. */
const NO_SPACE: ReadonlySet<string> = new Set(['ENOSPC', 'EDQUOT', 'EFBIG']);

async function refuseExisting(file: string): Promise<void> {
  const isThere = await access(file).then(
    () => true,
    () => false,
  );
  if (isThere) throw new Error(`${file} is there already: a backup never replaces another one. Nothing was written.`);
}

async function writeTables(client: pg.Client, gzip: Gzip, tell: (table: string, rows: number) => void) {
  await client.query('BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY');
  await writeLine(gzip, await headOf(client));
  const tables = await tablesInOrder(client);
  let rows = 0;
  for (const head of tables) {
    await writeLine(gzip, head);
    const tail = await writeTable(client, gzip, head.table, head.columns);
    await writeLine(gzip, tail);
    tell(head.table, tail.rows);
    rows += tail.rows;
  }
  await writeLine(gzip, { end: true, tables: tables.length } satisfies End);
  await client.query('COMMIT');
  return { tables: tables.length, rows };
}

async function headOf(client: pg.Client): Promise<Head> {
  const { rows } = await client.query<{ name: string; checksum: string }>(
    `SELECT migration_name AS name, checksum FROM _prisma_migrations
     WHERE finished_at IS NOT NULL AND rolled_back_at IS NULL ORDER BY migration_name`,
  );
  return { format: FORMAT, version: FORMAT_VERSION, takenAt: new Date().toISOString(), migrations: rows };
}

async function writeTable(
  client: pg.Client,
  gzip: Gzip,
  table: string,
  columns: readonly string[],
): Promise<TableTail> {
  const hash = createHash('sha256');
  const stream = client.query(copyTo(`COPY ${quoted([table])} (${quoted(columns)}) TO STDOUT`));
  for await (const chunk of stream as AsyncIterable<Buffer>) {
    hash.update(chunk);
    await writeBlock(gzip, chunk);
  }
  await writeBlock(gzip, Buffer.alloc(0));
  return { rows: stream.rowCount, sha256: hash.digest('hex') };
}

async function writeBlock(gzip: Gzip, bytes: Buffer): Promise<void> {
  const length = Buffer.alloc(4);
  length.writeUInt32BE(bytes.length);
  await push(gzip, Buffer.concat([length, bytes]));
}

const writeLine = (gzip: Gzip, line: unknown) => push(gzip, Buffer.from(`${JSON.stringify(line)}\n`));

async function push(gzip: Gzip, bytes: Buffer): Promise<void> {
  if (gzip.errored) throw gzip.errored;
  if (!gzip.write(bytes)) await once(gzip, 'drain');
}
