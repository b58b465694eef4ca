import { pipeline } from 'node:stream/promises';
import { importSheet } from '@slackwater/api/modules/import/import.usecases';
import { createPolicies } from '@slackwater/api/record/policies';
import { HOUR_MS, MINUTE_MS } from '@slackwater/domain';
import pg from 'pg';
import { from as copyFrom } from 'pg-copy-streams';
import { type Arm, compare } from '../harness/arms.ts';
import { pool } from '../harness/databases.ts';
import type { Measure, Row } from '../harness/measure.ts';
import { addPatient, SITE, seedWard, WARD } from '../harness/ward.ts';
import { recordRowsOf } from './sheet-peer.ts';

const PATIENTS = 100;
const EXCHANGES = 100;
const HEADER =
  'ward,hospital_number,drain_start,drain_end,drained_ml,appearance,fill_start,fill_end,filled_ml,solution,note';

const PLAIN_TABLE = `
  CREATE TABLE plain_sheet (ward text, hospital_number text, drain_start timestamptz, drain_end timestamptz, drained_ml integer,
    appearance text, fill_start timestamptz, fill_end timestamptz, filled_ml integer, solution text, note text);
  GRANT INSERT, TRUNCATE ON plain_sheet TO slackwater_app`;

/**
 * A flow sheet of 10,000 exchanges, judged, folded and written into the record. Beside it COPY of the rows that it comes
 * to into the record's own tables, and COPY of its bare lines into a table that nothing is asked of.
 */
export const sheet: Row = {
  name: 'import',
  async run({ databases, pace }) {
    const database = await databases.open();
    const db = pool(database.appUrl);
    const superuser = new pg.Client({ connectionString: database.superUrl });
    await superuser.connect();
    await superuser.query(PLAIN_TABLE);
    const { scenario } = await seedWard(db, 1);
    const policies = createPolicies();
    let sheets = 0;
    /** So many more patients, who differ in nothing but their number. */
    const morePatients = async () => {
      sheets += 1;
      const patients = Array.from({ length: PATIENTS }, (_, index) => ({
        ...scenario.patients[0]!,
        hospitalNumber: `B${sheets}-${index}`,
      }));
      const ids: string[] = [];
      for (const patient of patients) ids.push(await addPatient(db, patient));
      return { ids, numbers: patients.map(({ hospitalNumber }) => hospitalNumber) };
    };
    const rows = PATIENTS * EXCHANGES;
    const importFor = async (numbers: readonly string[]) => {
      const source = [Buffer.from(sheetOf(numbers))];
      const startedAt = performance.now();
      const result = await importSheet(db, policies, {
        siteId: SITE,
        source: inOrder(source),
        people: null,
        onlyWard: null,
        author: null,
      });
      const tookMs = performance.now() - startedAt;
      if ('refused' in result) throw new Error(JSON.stringify(result.refused).slice(0, 500));
      return (rows * 1000) / tookMs;
    };
    const intoRecord: Arm = async () => importFor((await morePatients()).numbers);
    const text = Buffer.from(sheetOf(Array.from({ length: PATIENTS }, (_, index) => `C${index}`)));
    const intoTable: Arm = async (windowMs) => {
      const client = await db.connect();
      let copied = 0;
      let tookMs = 0;
      while (tookMs < windowMs) {
        await client.query('TRUNCATE plain_sheet');
        const startedAt = performance.now();
        await pipeline(inOrder([text]), client.query(copyFrom('COPY plain_sheet FROM STDIN (FORMAT csv, HEADER)')));
        tookMs += performance.now() - startedAt;
        copied += rows;
      }
      client.release();
      return (copied * 1000) / tookMs;
    };
    try {
      const { ids, numbers } = await morePatients();
      await importFor(numbers);
      const recorded = await recordRowsOf(db, ids);
      const intoRecordTables: Arm = async () => {
        const { ids: newIds } = await morePatients();
        return (rows * 1000) / (await recorded.copyFor(newIds));
      };
      const measureOf = async (beside: string, arm: Arm, bar: Measure['bar'] | null): Promise<Measure> => {
        const { ratio, quartiles, a, b } = await compare(intoRecord, arm, pace);
        return {
          what: `import ÷ COPY ${beside}`,
          value: ratio,
          unit: '×',
          bar,
          quartiles,
          beside: `${inThousands(a)} rows/s; COPY ${inThousands(b)} rows/s; ${inThousands(rows)} rows a sheet`,
        };
      };
      return [
        await measureOf("of what it comes to into the record's tables", intoRecordTables, { at: 'least', value: 0.1 }),
        await measureOf('of the bare lines into a bare table', intoTable, null),
      ];
    } finally {
      await superuser.end();
      await db.end();
      await database.drop();
    }
  },
};

const inThousands = (count: number) => Math.round(count).toLocaleString('en');

async function* inOrder(chunks: readonly Buffer[]) {
  yield* chunks;
}

/** Exchanges every six hours, the newest some days ago. */
function sheetOf(hospitalNumbers: readonly string[]): string {
  const iso = (at: number) => new Date(at).toISOString();
  const last = Date.now() - 72 * HOUR_MS;
  const lines = hospitalNumbers.flatMap((hospitalNumber, person) =>
    Array.from({ length: EXCHANGES }, (_, index) => {
      const startAt = last - (EXCHANGES - index) * 6 * HOUR_MS + person * MINUTE_MS;
      const [drainEnd, fillStart, fillEnd] = [18, 21, 30].map((minutes) => iso(startAt + minutes * MINUTE_MS));
      const drainedMl = 1900 + ((person * 37 + index * 91) % 500);
      return [
        WARD,
        hospitalNumber,
        iso(startAt),
        drainEnd,
        drainedMl,
        'clear',
        fillStart,
        fillEnd,
        2000,
        'glucose-2.27',
        '',
      ];
    }),
  );
  return `${[HEADER, ...lines.map((line) => line.join(','))].join('\n')}\n`;
}
