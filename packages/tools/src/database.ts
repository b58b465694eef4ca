import pg from 'pg';
import { startCluster } from './cluster.ts';
import { ensureRolesAndDatabase, rolePasswords, urlFor } from './roles.ts';

/** Where the database is: one of our own in a folder, or somebody else's. */
export type Where = { kind: 'embedded'; folder: string } | { kind: 'outside'; appUrl: string; ownerUrl: string | null };

export type Database = {
  appUrl: string;
  /** null: only the server's own role is known, so nothing may be migrated, restored or erased. */
  ownerUrl: string | null;
  adopted: boolean;
  /** Starts the embedded database again whenever it dies, and says so; one of somebody else's is theirs to look after. */
  keepAlive(tell: (line: string) => void): void;
  stop(): Promise<void>;
};

const NAME = 'slackwater';

/** Opens the database, starting the embedded one where it does not run. */
export async function openDatabase(where: Where): Promise<Database> {
  if (where.kind === 'outside') {
    await refuseMightyRole(where.appUrl);
    return { appUrl: where.appUrl, ownerUrl: where.ownerUrl, adopted: true, keepAlive() {}, stop: async () => {} };
  }
  const cluster = await startCluster(where.folder);
  const passwords = await rolePasswords(where.folder);
  await ensureRolesAndDatabase(cluster, passwords, NAME);
  return {
    appUrl: urlFor(cluster.port, 'slackwater_app', passwords, NAME),
    ownerUrl: urlFor(cluster.port, 'slackwater_owner', passwords, NAME),
    adopted: cluster.adopted,
    keepAlive: cluster.keepAlive,
    stop: cluster.stop,
  };
}

/** Of an address with several names, the driver gives one failure for each, and no words of its own. */
const wordsOf = (error: Error): string =>
  error instanceof AggregateError ? error.errors.map(({ message }) => message).join(', ') : error.message;

/**
 * The server must not be able to change what was recorded: its role owns no table and is no superuser.
 * @throws when `DATABASE_URL` is a superuser, a member of the owner's role, or owns a table
 */
async function refuseMightyRole(appUrl: string): Promise<void> {
  const client = new pg.Client({ connectionString: appUrl, application_name: 'slackwater-check' });
  await client.connect().catch((error: Error) => {
    const { host } = new URL(appUrl);
    throw new Error(`The database at ${host} (DATABASE_URL) cannot be reached: ${wordsOf(error)}.`, { cause: error });
  });
  try {
    const { rows } = await client.query<{ role: string; super: boolean; owns: boolean }>(`
      SELECT current_user AS role,
        (SELECT rolsuper FROM pg_roles WHERE rolname = current_user) AS super,
        EXISTS (SELECT FROM pg_class WHERE relkind = 'r' AND relnamespace = 'public'::regnamespace
                AND pg_has_role(current_user, relowner, 'MEMBER')) AS owns`);
    const found = rows[0];
    if (!found?.super && !found?.owns) return;
    throw new Error(
      `DATABASE_URL signs in as ${found.role}, which ${found.super ? 'is a superuser' : 'owns the tables'}. ` +
        'Give the role slackwater_app there, and the owner as DATABASE_OWNER_URL.',
    );
  } finally {
    await client.end();
  }
}
