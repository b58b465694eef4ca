// npm run migrate: brings the tables of the configured database up to this release.
import { migrate } from '@slackwater/tools/migrate';
import { ownerOf, runCommand } from './command.ts';

await runCommand(async ({ database }) => {
  const applied = await migrate(ownerOf(database, 'migrate'));
  console.log(applied.length === 0 ? 'The tables are up to date.' : `Applied: ${applied.join(', ')}`);
});
