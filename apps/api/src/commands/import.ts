// npm run import -- FILE.csv [--create-patients PEOPLE.csv]: a flow sheet of past exchanges, whole or not at all.
import { randomUUID } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { stat } from 'node:fs/promises';
import { parseArgs } from 'node:util';
import { SheetError } from '../modules/import/import.csv.ts';
import { problemWords } from '../modules/import/import.problems.ts';
import { type ImportProgress, importSheet, type NotImported } from '../modules/import/import.usecases.ts';
import { createPolicies } from '../record/policies.ts';
import { runCommand, type Tools } from './command.ts';

const USAGE = 'Usage: npm run import -- FILE.csv [--create-patients PEOPLE.csv]';

const DOING: Record<ImportProgress['doing'], string> = {
  reading: 'Reading',
  folding: 'Folding',
  publishing: 'Publishing',
};

await runCommand(async ({ config, pool }) => {
  const { file, peopleFile } = readArguments();
  const bytes = (await stat(file)).size;
  const bar = progressBar(bytes);
  const result = await importSheet(pool, createPolicies(), {
    siteId: config.site.id,
    source: createReadStream(file),
    people: peopleFile === null ? null : createReadStream(peopleFile),
    onlyWard: null,
    author: null,
    onProgress: bar.show,
  }).catch((error: unknown) => {
    bar.end();
    throw error instanceof SheetError ? new Error(`${file}: ${error.message} Nothing was imported.`) : error;
  });
  bar.end();
  if ('refused' in result) throw new Error(refusedWords(result.refused, file, peopleFile));
  const { rows, added, known, patients, peopleAdded } = result.imported;
  await note({ config, pool }, { file, rows, added, known, patients, peopleAdded });
  console.log(
    `${file}: ${added} rows imported for ${patients} patients, ${known} of ${rows} stood in the record already.` +
      (peopleFile === null ? '' : ` ${peopleAdded} patients were made known.`),
  );
});

function readArguments(): { file: string; peopleFile: string | null } {
  try {
    const { values, positionals } = parseArgs({
      allowPositionals: true,
      options: { 'create-patients': { type: 'string' } },
    });
    const [file, ...more] = positionals;
    if (file !== undefined && more.length === 0) return { file, peopleFile: values['create-patients'] ?? null };
  } catch (error) {
    throw new Error(`${(error as Error).message}. ${USAGE}`);
  }
  throw new Error(USAGE);
}

function refusedWords(refused: NotImported, file: string, peopleFile: string | null): string {
  const people = [
    ...refused.people.map(
      ({ line, column, value, allowed }) =>
        `  ${peopleFile}, line ${line}, ${column} ${JSON.stringify(value)}; allowed: ${allowed}`,
    ),
    ...refused.otherPeople.map((number) => `  ${number} is known under another name, birthday or gender`),
  ];
  const { count, listed } = refused.bad;
  const lines = listed.map((problem) => `  ${problemWords(problem)}`);
  const shown = new Set(listed.map(({ line }) => line)).size;
  const more = count > shown ? [`  and ${count - shown} bad rows more`] : [];
  const what = count > 0 ? `${count} of ${refused.rows} rows of ${file} are bad` : `${peopleFile} cannot be used`;
  return [`${what}: nothing was imported.`, ...people, ...lines, ...more].join('\n');
}

/** A bar on a terminal, a line every two seconds elsewhere. */
function progressBar(bytes: number) {
  let shownAt = performance.now();
  let isOpen = false;
  const onTerminal = process.stdout.isTTY;
  const pause = onTerminal ? 100 : 2000;
  return {
    show({ doing, done, of }: ImportProgress): void {
      if (performance.now() - shownAt < pause && doing !== 'publishing') return;
      shownAt = performance.now();
      const share = Math.min(1, done / Math.max(1, of ?? bytes));
      const percent = `${Math.round(100 * share)} %`.padStart(5);
      if (!onTerminal) {
        console.log(`  ${DOING[doing]} ${percent.trim()}`);
        return;
      }
      const filled = Math.round(30 * share);
      process.stdout.write(`\r  ${DOING[doing].padEnd(10)} [${'#'.repeat(filled).padEnd(30, '.')}] ${percent}`);
      isOpen = true;
    },
    end(): void {
      if (isOpen) process.stdout.write('\n');
      isOpen = false;
    },
  };
}

/** The command has no session: the audit says that it was run on the server's own machine. */
async function note({ config, pool }: Pick<Tools, 'config' | 'pool'>, detail: Record<string, unknown>): Promise<void> {
  await pool.query(
    `INSERT INTO audit (site_id, id, at, account_id, action, address, detail) VALUES ($1, $2, now(), NULL, 'imported', 'console', $3)`,
    [config.site.id, randomUUID(), JSON.stringify(detail)],
  );
}
