import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { PrismaPg } from '@prisma/adapter-pg';
import { bindMigrationAwareSqlAdapterFactory } from '@prisma/driver-adapter-utils';
import { SchemaEngine } from '@prisma/schema-engine-wasm';
import { migrationsFolder } from './paths.ts';
export const filters = { externalTables: [], externalEnums: [] };
const schemaPath = join(import.meta.dirname, '../../../prisma/schema.prisma');
export async function withEngine<T>(url: string, use: (e: SchemaEngine, schema: string) => Promise<T>): Promise<T> {
  const schema = await readFile(schemaPath, 'utf8');
  const factory = new PrismaPg({ connectionString: url, max: 1 });
  const open: { dispose(): Promise<void> | undefined; underlyingDriver(): any }[] = [];
  const whole = <A>(a: A): A => {
    open.push(a as any);
    const d = (a as any).underlyingDriver();
    const q = d.query.bind(d);
    d.query = async (...x: any[]) => {
      const r = await q(...x);
      for (const f of r.fields ?? []) if (f.dataTypeID === 18) f.dataTypeID = 25;
      return r;
    };
    (a as any).executeScript = async (s: string) => {
      await (a as any).underlyingDriver().query(s);
    };
    return a;
  };
  const connect = factory.connect.bind(factory),
    shadow = factory.connectToShadowDb.bind(factory);
  factory.connect = async () => whole(await connect());
  factory.connectToShadowDb = async () => whole(await shadow());
  const engine = await SchemaEngine.new(
    { datamodels: [['schema.prisma', schema]] },
    () => {},
    bindMigrationAwareSqlAdapterFactory(factory),
  );
  try {
    return await use(engine, schema);
  } finally {
    engine.free();
    for (const a of open)
      await a
        .underlyingDriver()
        .end?.()
        .catch(() => {});
  }
}
const list = async () => ({
  baseDir: migrationsFolder,
  lockfile: { path: 'migration_lock.toml', content: 'provider = "postgresql"\n' },
  shadowDbInitScript: '',
  migrationDirectories: await Promise.all(
    (await readdir(migrationsFolder, { withFileTypes: true }))
      .filter((d) => d.isDirectory())
      .map((d) => d.name)
      .sort()
      .map(async (path) => ({
        path,
        migrationFile: {
          path: 'migration.sql',
          content: { tag: 'ok' as const, value: await readFile(join(migrationsFolder, path, 'migration.sql'), 'utf8') },
        },
      })),
  ),
});
/** SQL that would bring the migrations to the schema; empty when they agree. */
export const pending = (url: string) =>
  withEngine(url, async (e, schema) => {
    const r = await e.diff({
      from: {
        tag: 'schemaDatasource',
        files: [{ path: 'schema.prisma', content: schema }],
        configDir: '.',
      } as never as any,
      to: { tag: 'schemaDatamodel', files: [{ path: 'schema.prisma', content: schema }], configDir: '.' } as never,
      script: true,
      exitCode: null,
      filters,
    } as never);
    return r.stdout;
  });
export const diagnose = (url: string) =>
  withEngine(url, async (e) =>
    e.diagnoseMigrationHistory({ migrationsList: await list(), optInToShadowDatabase: false, filters } as any),
  );
export const apply = (url: string) =>
  withEngine(
    url,
    async (e) => (await e.applyMigrations({ migrationsList: await list(), filters })).appliedMigrationNames,
  );
