import { once } from 'node:events';
import pg from 'pg';
import { vi } from 'vitest';
import type { FreshDatabase } from '../support/database.ts';
import { runNode } from '../support/server-process.ts';

/** A command of the tool on a database, and the name under which it works there. */
export type Command = { name: string; args?: readonly string[]; worksAs: string };

/** How a command is told of a database. */
export const settingsFor = ({ appUrl, ownerUrl }: FreshDatabase) => ({
  DATABASE_URL: appUrl,
  DATABASE_OWNER_URL: ownerUrl,
  SLACKWATER_SITE: 'alder-point',
  SLACKWATER_DEMO: '0',
});

/**
 * Kills a command (SIGKILL) exactly when it comes to a table: the table is held until it waits for it. Returns once the
 * database has noticed that nobody is there any more.
 */
export async function killAt(table: string, database: FreshDatabase, command: Command): Promise<void> {
  const holder = new pg.Client({ connectionString: database.superUrl });
  const onlooker = new pg.Client({ connectionString: database.superUrl });
  await holder.connect();
  await onlooker.connect();
  try {
    await holder.query(`BEGIN; LOCK TABLE ${table} IN ACCESS EXCLUSIVE MODE`);
    const run = runNode(`apps/api/src/commands/${command.name}.ts`, command.args ?? [], settingsFor(database));
    const sessions = async (waiting: boolean) => {
      const { rowCount } = await onlooker.query(
        `SELECT FROM pg_stat_activity WHERE datname = current_database() AND application_name = $1
           AND (NOT $2 OR wait_event_type = 'Lock')`,
        [command.worksAs, waiting],
      );
      return rowCount ?? 0;
    };
    await vi.waitFor(async () => {
      if (run.child.exitCode !== null) throw new Error(`${command.name} never came to ${table}: ${run.said()}`);
      if ((await sessions(true)) === 0) throw new Error(`${command.name} does not wait for ${table} yet.`);
    }, UNTIL_MS);
    const ended = once(run.child, 'exit');
    run.child.kill('SIGKILL');
    await ended;
    await holder.query('ROLLBACK');
    await vi.waitFor(async () => {
      if ((await sessions(false)) > 0) throw new Error(`${command.name} is dead, and its session is still open.`);
    }, UNTIL_MS);
  } finally {
    await holder.end();
    await onlooker.end();
  }
}

const UNTIL_MS = 30_000;
