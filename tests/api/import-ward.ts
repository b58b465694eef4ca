import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { importSheet } from '@slackwater/api/modules/import/import.usecases';
import { createPolicies } from '@slackwater/api/record/policies';
import { FOLDED_TABLE_NAMES } from '@slackwater/api/record/rows/tables';
import { balanceOf, type Dwell, wardDayOf } from '@slackwater/domain';
import { projectRoot } from '@slackwater/tools/paths';
import type pg from 'pg';
import { freshDatabase } from '../support/database.ts';
import { close, pool, SITE, type TestWard, testWard, WARD } from './record-ward.ts';

export const HEADER =
  'ward,hospital_number,drain_start,drain_end,drained_ml,appearance,fill_start,fill_end,filled_ml,solution,note';

/** A sheet with the header of the README and these lines. */
export const sheetOf = (...lines: readonly string[]): string => `${[HEADER, ...lines].join('\n')}\n`;

export type ImportWard = TestWard & { appUrl: string; close(): Promise<void> };

/** The wards of the record's tests on a database of their own. */
export async function openImportWard(): Promise<ImportWard> {
  const database = await freshDatabase();
  const db = pool(database.appUrl);
  const ward = await testWard(db);
  return {
    ...ward,
    appUrl: database.appUrl,
    async close() {
      await close(db);
      await database.drop();
    },
  };
}

type Given = string | Uint8Array;

async function* bytesOf(given: Given) {
  const bytes = typeof given === 'string' ? Buffer.from(given) : given;
  // in small pieces, as a file or a network would give them
  for (let start = 0; start < bytes.length; start += 1000) yield bytes.subarray(start, start + 1000);
}

/** Imports as the command does. */
export const importCsv = (db: pg.Pool, sheet: Given, people: Given | null = null, onlyWard: string | null = null) =>
  importSheet(db, createPolicies(), {
    siteId: SITE,
    source: bytesOf(sheet),
    people: people === null ? null : bytesOf(people),
    onlyWard,
    author: null,
  });

/** The invented month as it is shipped. */
export const month = async () => ({
  sheet: await readFile(join(projectRoot, 'shared/scenario/kestrel-month.csv'), 'utf8'),
  people: await readFile(join(projectRoot, 'shared/scenario/kestrel-month-people.csv'), 'utf8'),
});

/** What the tool says of one ward day of a patient: the sum, exchanges, and when a volume is missing. */
export async function dayBalance(db: pg.Pool, hospitalNumber: string, date: string) {
  const { rows } = await db.query<{ content: Dwell }>(
    `SELECT dwell.content FROM dwell JOIN patient ON patient.site_id = dwell.site_id AND patient.id = dwell.patient_id
     WHERE patient.hospital_number = $1`,
    [hospitalNumber],
  );
  const policy = await createPolicies().of(db, SITE, WARD, { settingsVersion: 1, formularyVersion: 1 });
  const { from, to } = wardDayOf(date, policy);
  const { removedMl, exchanges, missing } = balanceOf(
    rows.map(({ content }) => content),
    [],
    from,
    to,
  );
  return { removedMl, exchanges, missing: missing.map(({ at, what }) => `${what} ${new Date(at).toISOString()}`) };
}

/** Everything that is folded from the record, as text: what a rebuild must find again. */
export async function foldedText(db: pg.Pool): Promise<string> {
  const tables = await Promise.all(
    ['bedside', ...FOLDED_TABLE_NAMES].map(async (table) => {
      const { rows } = await db.query<{ all: string | null }>(
        `SELECT string_agg(one::text, chr(10) ORDER BY one::text) AS all FROM ${table} AS one`,
      );
      return `${table}\n${rows[0]?.all ?? ''}`;
    }),
  );
  return tables.join('\n');
}

/** How much stands in the record. */
export async function counts(db: pg.Pool) {
  const { rows } = await db.query<{
    entries: number;
    payloads: number;
    patients: number;
    dwells: number;
    staged: number;
  }>(
    `SELECT (SELECT count(*) FROM entry)::integer AS entries, (SELECT count(*) FROM entry_payload)::integer AS payloads,
      (SELECT count(*) FROM patient)::integer AS patients, (SELECT count(*) FROM dwell)::integer AS dwells,
      (SELECT count(*) FROM import_row)::integer AS staged`,
  );
  return rows[0]!;
}
