import { randomUUID } from 'node:crypto';
import { Readable } from 'node:stream';
import { text } from 'node:stream/consumers';
import { pipeline } from 'node:stream/promises';
import { openWard } from '@slackwater/api/record/open-ward';
import type { Pool } from 'pg';
import { from as copyFrom, to as copyTo } from 'pg-copy-streams';
import { SITE, WARD } from '../harness/ward.ts';

/** Where an imported exchange comes to stand, parents first, with what says whose it is. */
const TABLES = [
  { name: 'entry', whose: 'patient_id = ANY ($IDS)' },
  {
    name: 'entry_payload',
    whose: 'entry_id IN (SELECT id FROM entry WHERE patient_id = ANY ($IDS))',
  },
  { name: 'dwell', whose: 'patient_id = ANY ($IDS)' },
] as const;

const UUID = /[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}/g;

/**
 * The rows that an import has left in the record for some patients, to be copied again for as many others: into the same
 * tables, with their keys, indexes and references, under new ids and in a ward of their own, where the same positions are free.
 */
export async function recordRowsOf(db: Pool, patientIds: readonly string[]) {
  const ids = `ARRAY[${patientIds.map((id) => `'${id}'`).join()}]::uuid[]`;
  const recorded: { name: string; rows: string }[] = [];
  const client = await db.connect();
  for (const { name, whose } of TABLES) {
    const rows = client.query(copyTo(`COPY (SELECT * FROM ${name} WHERE ${whose.replace('$IDS', ids)}) TO STDOUT`));
    recorded.push({ name, rows: await text(rows) });
  }
  client.release();
  let wards = 0;
  return {
    /** @returns how long the copying took, to its commit, ms */
    async copyFor(newPatientIds: readonly string[]): Promise<number> {
      wards += 1;
      const wardId = `peer-${wards}`;
      const hours = { zone: 'Europe/London', shiftStarts: ['07:00', '19:00'] };
      await openWard(db, { siteId: SITE, id: wardId, name: wardId, ...hours, beds: [] });
      const newIds = new Map(patientIds.map((id, index) => [id, newPatientIds[index]!]));
      const newId = (id: string) => newIds.get(id) ?? newIds.set(id, randomUUID()).get(id)!;
      const blocks = recorded.map(({ name, rows }) => ({
        name,
        rows: Buffer.from(rows.replace(UUID, newId).replaceAll(`\t${WARD}\t`, `\t${wardId}\t`)),
      }));
      const copying = await db.connect();
      const startedAt = performance.now();
      await copying.query('BEGIN');
      // as the import does: a kept plan of a foreign key would read the whole table for each row, on this side alone
      await copying.query('DISCARD PLANS');
      await copying.query('SET LOCAL enable_seqscan = off');
      for (const { name, rows } of blocks) {
        await pipeline(Readable.from([rows]), copying.query(copyFrom(`COPY ${name} FROM STDIN`)));
      }
      await copying.query('COMMIT');
      const tookMs = performance.now() - startedAt;
      copying.release();
      return tookMs;
    },
  };
}
