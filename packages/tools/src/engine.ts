import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { PrismaPg } from '@prisma/adapter-pg';
import { bindMigrationAwareSqlAdapterFactory } from '@prisma/driver-adapter-utils';
import { SchemaEngine } from '@prisma/schema-engine-wasm';
import { projectRoot } from './paths.ts';

// Development and tests only: the schema engine writes migrations and is asked what the schema would be. It never
// applies anything here: through the adapter it splits scripts at every semicolon and is not atomic.

const schemaFile = join(projectRoot, 'prisma/schema.prisma');

/** Postgres' "char", which the adapter does not know; as text it is read rightly. */
const CHAR_OID = 18;
const TEXT_OID = 25;

type Answer = { fields?: { dataTypeID: number }[] };
type Driver = { query: (...args: unknown[]) => Promise<Answer>; end?: () => Promise<void> };
type Adapter = { underlyingDriver: () => Driver };

function readingChar<A>(adapter: A): A {
  const driver = (adapter as Adapter).underlyingDriver();
  const query = driver.query.bind(driver);
  driver.query = async (...args) => {
    const answer = await query(...args);
    for (const field of answer.fields ?? []) if (field.dataTypeID === CHAR_OID) field.dataTypeID = TEXT_OID;
    return answer;
  };
  return adapter;
}

type DiffTarget = 'nothing' | 'database' | 'schema';

/**
 * The SQL that leads from one to the other; `database` is the one at `url`.
 * Triggers, checks and partial indexes are no part of a Prisma schema: they are written by hand.
 */
export async function diffSql(url: string, from: DiffTarget, to: DiffTarget): Promise<string> {
  const schema = await readFile(schemaFile, 'utf8');
  const files = [{ path: 'schema.prisma', content: schema }];
  const target = (what: DiffTarget) =>
    ({
      nothing: { tag: 'empty' },
      database: { tag: 'schemaDatasource', files, configDir: '.' },
      schema: { tag: 'schemaDatamodel', files, configDir: '.' },
    })[what];

  const factory = new PrismaPg({ connectionString: url, max: 1 });
  const opened: Adapter[] = [];
  const connect = factory.connect.bind(factory);
  factory.connect = async () => {
    const adapter = readingChar(await connect());
    opened.push(adapter as unknown as Adapter);
    return adapter;
  };
  const engine = await SchemaEngine.new(
    { datamodels: [['schema.prisma', schema]] },
    () => undefined,
    bindMigrationAwareSqlAdapterFactory(factory),
  );
  try {
    const input = { from: target(from), to: target(to), script: true, exitCode: null, shadowDatabaseUrl: null };
    const filters = { externalTables: [], externalEnums: [] };
    const { stdout } = await engine.diff({ ...input, filters } as unknown as Parameters<SchemaEngine['diff']>[0]);
    return stdout ?? '';
  } finally {
    engine.free();
    for (const adapter of opened) await adapter.underlyingDriver().end?.();
  }
}
