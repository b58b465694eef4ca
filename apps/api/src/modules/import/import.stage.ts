import { randomFillSync } from 'node:crypto';
import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { DEFAULT_SETTINGS, type EpochMs, type WardSettings } from '@slackwater/domain';
import type { PoolClient } from 'pg';
import { from as copyFrom } from 'pg-copy-streams';
import { COLUMNS } from './import.columns.ts';
import { readCsv } from './import.csv.ts';
import { BadRowCollector, type BadRows } from './import.problems.ts';
import { readRow, type SheetRow } from './import.rows.ts';

const COPY = `COPY import_row (site_id, import_id, line, id, ward_id, hospital_number, started_at, ended_at, drains,
  solution_id, payload, salt) FROM STDIN`;

export type Staged = { rows: number; bad: BadRows };

export type ToStage = {
  siteId: string;
  importId: string;
  source: AsyncIterable<Uint8Array>;
  /** By ward id: the ranges that may be typed. */
  settings: ReadonlyMap<string, WardSettings>;
  /** The database's clock: nothing of the past lies after it. */
  now: EpochMs;
};

/**
 * Streams a sheet into the staging table. A row whose fields are wrong is counted and stays out.
 * @throws SheetError where it is no sheet
 */
export async function stage(client: PoolClient, sheet: ToStage): Promise<Staged> {
  const bad = new BadRowCollector();
  let rows = 0;
  async function* lines() {
    let block = '';
    for await (const record of readCsv(sheet.source, COLUMNS)) {
      rows += 1;
      const { line } = record;
      if ('found' in record) {
        const allowed = `${COLUMNS.length} fields`;
        bad.add([{ line, column: 'line', value: '', allowed, message: `has ${record.found} fields` }]);
        continue;
      }
      const settings = sheet.settings.get(record.fields.ward) ?? DEFAULT_SETTINGS;
      const { row, problems } = readRow(sheet.siteId, record.fields, line, settings, sheet.now);
      bad.add(problems);
      if (row === null) continue;
      block += copyLine(sheet, row);
      if (block.length >= BLOCK) {
        yield block;
        block = '';
      }
    }
    yield block;
  }
  await pipeline(Readable.from(lines()), client.query(copyFrom(COPY)));
  return { rows, bad: bad.found };
}

/** Characters that go to Postgres at once. */
const BLOCK = 65_536;

function copyLine({ siteId, importId }: ToStage, row: SheetRow): string {
  const { line, id, wardId, hospitalNumber, startedAt, endedAt, payload } = row;
  const fields = [
    siteId,
    importId,
    String(line),
    id,
    escaped(wardId),
    escaped(hospitalNumber),
    new Date(startedAt).toISOString(),
    new Date(endedAt).toISOString(),
    payload.drainStartedAt === null ? 'f' : 't',
    payload.solutionId === null ? '\\N' : escaped(payload.solutionId),
    escaped(JSON.stringify(payload)),
    `\\\\x${nextSalt()}`,
  ];
  return `${fields.join('\t')}\n`;
}

/** As COPY's text format wants it; `readRow` lets no control character through. */
const escaped = (text: string): string => text.replaceAll('\\', '\\\\');

const SALT_BYTES = 16;
const salts = Buffer.alloc(SALT_BYTES * 1024);
let salted = salts.length;

/** Fresh random bytes, drawn many at a time: each draw is a call into the system. */
function nextSalt(): string {
  if (salted === salts.length) {
    randomFillSync(salts);
    salted = 0;
  }
  salted += SALT_BYTES;
  return salts.toString('hex', salted - SALT_BYTES, salted);
}
