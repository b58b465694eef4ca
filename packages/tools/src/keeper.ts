import { setTimeout } from 'node:timers/promises';
import pg from 'pg';

const PATIENCE_MS = 60_000;
const LINGER_MS = 3_000;
const LOOK_EVERY_MS = 50;
/** Postgres' own code while it starts or recovers. */
const CANNOT_CONNECT_NOW = '57P03';

/** One open connection that says: a process of ours still needs this server. */
export type Keeper = {
  /** Fulfilled when the connection is gone: the server died, or somebody ended it. */
  ended: Promise<void>;
  /** Closes it. @returns whether another process of ours is still connected */
  leave(): Promise<boolean>;
};

/** Connects as soon as the server takes connections, which after a crash it does once it has recovered. */
export async function openKeeper(url: string): Promise<Keeper> {
  const client = await connectPatiently(url, 'slackwater-keeper');
  // a lost connection would end the process; that it is gone, `ended` says
  client.on('error', () => undefined);
  const ended = new Promise<void>((resolve) => client.once('end', resolve));
  // the driver has both, its types do not: a process with nothing left to do may end
  const { unref, ref } = client as pg.Client & { unref(): void; ref(): void };
  unref.call(client);
  return {
    ended,
    async leave() {
      ref.call(client);
      await client.end().catch(() => undefined);
      return hasOthers(url);
    },
  };
}

async function connectPatiently(url: string, name: string): Promise<pg.Client> {
  const until = Date.now() + PATIENCE_MS;
  for (;;) {
    const client = new pg.Client({ connectionString: url, application_name: name });
    try {
      await client.connect();
      return client;
    } catch (error) {
      if ((error as pg.DatabaseError).code !== CANNOT_CONNECT_NOW || Date.now() > until) throw error;
      await setTimeout(LOOK_EVERY_MS);
    }
  }
}

/** A connection that was just closed still shows for a moment: only what stays counts. */
async function hasOthers(url: string): Promise<boolean> {
  const client = await connectPatiently(url, 'slackwater-stop');
  try {
    const until = Date.now() + LINGER_MS;
    for (;;) {
      const { rowCount } = await client.query(
        `SELECT FROM pg_stat_activity WHERE application_name LIKE 'slackwater%' AND pid <> pg_backend_pid() LIMIT 1`,
      );
      if (rowCount === 0) return false;
      if (Date.now() > until) return true;
      await setTimeout(LOOK_EVERY_MS);
    }
  } finally {
    await client.end();
  }
}
