import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import type { PoolClient } from 'pg';
import { from as copyFrom } from 'pg-copy-streams';
import { FOLDED_TABLES, type FoldedRow } from '../../record/rows/tables.ts';

const COPY = `COPY dwell (${FOLDED_TABLES.dwell.join(', ')}) FROM STDIN`;

/** Characters that are gathered before they go to Postgres. */
const BLOCK = 1_048_576;

export type DwellCopy = ReturnType<typeof openDwellCopy>;

/**
 * Writes the dwells of patients who have none yet, those of many patients at once; much faster than the statement that
 * also replaces and removes. What was added last is written by `flush`.
 */
export function openDwellCopy(client: PoolClient) {
  let block = '';
  async function flush(): Promise<void> {
    if (block === '') return;
    const full = block;
    block = '';
    await pipeline(Readable.from([full]), client.query(copyFrom(COPY)));
  }
  return {
    async add(rows: readonly FoldedRow<'dwell'>[]): Promise<void> {
      for (const row of rows) block += `${FOLDED_TABLES.dwell.map((column) => cell(row[column])).join('\t')}\n`;
      if (block.length >= BLOCK) await flush();
    },
    flush,
  };
}

/** As COPY's text format wants it; JSON has no raw tab or line break. */
function cell(value: unknown): string {
  if (value === null) return '\\N';
  const text = typeof value === 'object' ? JSON.stringify(value) : String(value);
  return text.replaceAll('\\', '\\\\');
}
