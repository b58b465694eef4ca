// npm run restore -- FILE: fills an empty database from a backup, then verifies the chain of every ward.
import { basename } from 'node:path';
import { restore } from '@slackwater/tools/backup/restore';
import { createPolicies } from '../record/policies.ts';
import { rebuild } from '../record/rebuild.ts';
import { verify } from '../record/verify.ts';
import { fileArgument, ownerOf, runCommand } from './command.ts';
import { noteCopy } from './note-copy.ts';

await runCommand(async ({ database, pool }) => {
  const file = fileArgument('npm run restore -- FILE');
  const result = await restore(ownerOf(database, 'restore'), file, (table, rows) => console.log(`  ${table}: ${rows}`));
  console.log(`${file} of ${result.takenAt}: ${result.tables} tables, ${result.rows} rows.`);
  await noteCopy(pool, 'restored', { file: basename(file), takenAt: result.takenAt, rows: result.rows });
  const { rows: sites } = await pool.query<{ id: string }>('SELECT id FROM site ORDER BY id');
  for (const { id } of sites) {
    const { wards, faults } = await verify(pool, id);
    if (faults.length > 0) throw new Error(`The chain of ${id} does not hold: ${JSON.stringify(faults[0])}`);
    for (const ward of wards) console.log(`${id}/${ward.wardId}: chain holds to position ${ward.position}`);
    await rebuild(pool, createPolicies(), id);
  }
});
