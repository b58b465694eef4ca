import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { projectRoot } from '@slackwater/tools/paths';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { counts, HEADER, type ImportWard, openImportWard } from './import-ward.ts';
import { SITE } from './record-ward.ts';

let ward: ImportWard;
let folder: string;
beforeAll(async () => {
  ward = await openImportWard();
  folder = await mkdtemp(join(tmpdir(), 'slackwater-import-'));
});
afterAll(async () => {
  await rm(folder, { recursive: true });
  await ward.close();
});

/** Runs the command as `npm run import` does. */
async function run(...args: readonly string[]) {
  const child = spawn(process.execPath, [join(projectRoot, 'apps/api/src/commands/import.ts'), ...args], {
    env: { ...process.env, DATABASE_URL: ward.appUrl, SLACKWATER_SITE: SITE, SLACKWATER_DEMO: '0' },
  });
  const said = { out: '', error: '' };
  child.stdout.on('data', (data) => {
    said.out += data;
  });
  child.stderr.on('data', (data) => {
    said.error += data;
  });
  const [code] = await once(child, 'close');
  return { code, ...said };
}

const shipped = (name: string) => join(projectRoot, 'shared/scenario', name);
const MONTH = [shipped('kestrel-month.csv'), '--create-patients', shipped('kestrel-month-people.csv')];

test('brings in the month as the README says, says what it did, and notes it in the audit', async () => {
  const first = await run(...MONTH);
  expect(first.error).toBe('');
  expect(first.code).toBe(0);
  expect(first.out).toContain('2390 rows imported for 24 patients, 0 of 2390 stood in the record already. 24 patients');
  const again = await run(...MONTH);
  expect(again.out).toContain('0 rows imported for 0 patients, 2390 of 2390 stood');
  const { rows } = await ward.pool.query(`SELECT account_id, address FROM audit WHERE action = 'imported'`);
  expect(rows).toEqual(Array(2).fill({ account_id: null, address: 'console' }));
});

test('leaves with 1 and the list of what is wrong', async () => {
  const before = await counts(ward.pool);
  const file = join(folder, 'bad.csv');
  await writeFile(file, `${HEADER}\nkestrel,AP 300101,2026-09-01T08:00Z,2026-09-01T08:20Z,7000,,,,,,\n`);
  const { code, error } = await run(file);
  expect(code).toBe(1);
  expect(error).toContain(`1 of 1 rows of ${file} are bad: nothing was imported.`);
  expect(error).toContain('line 2, drained_ml "7000" is outside the allowed range; allowed: 0 to 6000 mL');
  expect(await counts(ward.pool)).toEqual(before);
});

test.each([
  ['no file', [], /Usage: npm run import/],
  ['a file that is not there', ['/nowhere/sheet.csv'], /ENOENT/],
  ['an option that is not known', ['a.csv', '--force'], /--force/],
])('says so with %s', async (_, args, words) => {
  const { code, error } = await run(...args);
  expect(code).toBe(1);
  expect(error).toMatch(words);
});
