// npm run schema: writes prisma/schema.sql from the catalogs of a freshly migrated database.
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { catalogText } from './catalog.ts';
import { openDatabase } from './database.ts';
import { migrate } from './migrate.ts';
import { projectRoot } from './paths.ts';

const folder = await mkdtemp(join(tmpdir(), 'slackwater-schema-'));
const database = await openDatabase({ kind: 'embedded', folder });
try {
  await migrate(database.ownerUrl ?? '');
  await writeFile(join(projectRoot, 'prisma/schema.sql'), await catalogText(database.ownerUrl ?? ''));
  console.log('prisma/schema.sql is what the migrations make.');
} finally {
  await database.stop();
  await rm(folder, { recursive: true, force: true });
}
