import { type Database, openDatabase } from '@slackwater/tools/database';
import type pg from 'pg';
import { type Config, readConfig } from '../config.ts';
import { openPool } from '../pool.ts';

/** What a command works with. `ownerUrl` is there only where the command asked for it. */
export type Tools = { config: Config; database: Database; pool: pg.Pool };

/**
 * Runs one command against the configured database and closes everything behind it.
 * Says what went wrong in one sentence and leaves with 1.
 */
export async function runCommand(work: (tools: Tools) => Promise<void>): Promise<void> {
  let database: Database | undefined;
  let pool: pg.Pool | undefined;
  try {
    const config = readConfig(process.env);
    database = await openDatabase(config.where);
    // what a command needs of a lost connection, its next statement tells
    pool = openPool({ url: database.appUrl, name: 'slackwater-command', max: 4 }, () => undefined);
    await work({ config, database, pool });
  } catch (error) {
    console.error(error instanceof Error ? error.message : error);
    process.exitCode = 1;
  } finally {
    await pool?.end();
    await database?.stop();
  }
}

/** @throws when only the server's own role is known */
export function ownerOf({ ownerUrl }: Database, what: string): string {
  if (ownerUrl) return ownerUrl;
  throw new Error(`${what} needs the owner of the tables: give DATABASE_OWNER_URL.`);
}

/** The one file that a command was given. */
export function fileArgument(usage: string): string {
  const [file, ...more] = process.argv.slice(2).filter((argument) => !argument.startsWith('--'));
  if (!file || more.length > 0) throw new Error(`Usage: ${usage}`);
  return file;
}
