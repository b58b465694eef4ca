// npm run backup -- FILE: every table, as it stood at one instant, into one file with checksums, while the ward works.
import { basename } from 'node:path';
import { backup } from '@slackwater/tools/backup/backup';
import { fileArgument, runCommand } from './command.ts';
import { noteCopy } from './note-copy.ts';

await runCommand(async ({ database, pool }) => {
  const file = fileArgument('npm run backup -- FILE');
  const result = await backup(database.ownerUrl ?? database.appUrl, file, (table, rows) =>
    console.log(`  ${table}: ${rows}`),
  );
  console.log(`${file}: ${result.tables} tables, ${result.rows} rows, ${result.bytes} bytes.`);
  const isNoted = await noteCopy(pool, 'backedUp', { file: basename(file), rows: result.rows });
  if (!isNoted) console.log('This database takes no writes: the backup stands in no audit.');
});
