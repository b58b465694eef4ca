// npm run backup -- FILE: every table, as it stood at one instant, into one file with checksums, while the ward works.
import { backup } from '@slackwater/tools/backup/backup';
import { fileArgument, runCommand } from './command.ts';

await runCommand(async ({ database }) => {
  const file = fileArgument('npm run backup -- FILE');
  const result = await backup(database.ownerUrl ?? database.appUrl, file, (table, rows) =>
    console.log(`  ${table}: ${rows}`),
  );
  console.log(`${file}: ${result.tables} tables, ${result.rows} rows, ${result.bytes} bytes.`);
});
