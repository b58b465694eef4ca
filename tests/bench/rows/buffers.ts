import { randomUUIDv7 } from 'node:crypto';
import { READ_BOARD, READ_CHANGED } from '@slackwater/api/live/board.sql';
import { createPolicies } from '@slackwater/api/record/policies';
import { createRecord } from '@slackwater/api/record/record';
import { MINUTE_MS } from '@slackwater/domain';
import pg from 'pg';
import { buffersOf, grow } from '../../support/growth.ts';
import { pool } from '../harness/databases.ts';
import type { Row } from '../harness/measure.ts';
import { median } from '../harness/quantiles.ts';
import { NURSE, SITE, seedWard, WARD } from '../harness/ward.ts';

const PATIENTS = 12;
const ENTRIES = 9;

/** Buffers that a board and an entry touch, with a year of history and with a day. Counted by Postgres; also a test. */
export const buffers: Row = {
  name: 'buffers',
  async run({ databases }) {
    const database = await databases.open();
    // what one connection did can be told at once
    const db = pool(database.appUrl, 1);
    const superuser = new pg.Client({ connectionString: database.superUrl });
    await superuser.connect();
    try {
      const { accounts, patientIds } = await seedWard(db, PATIENTS);
      const record = createRecord({ pool: db, policies: createPolicies() });
      const author = { accountId: accounts.get(NURSE)!.id, role: 'nurse' } as const;
      const weigh = async (patientId: string) => {
        const at = { happenedAt: Date.now() - MINUTE_MS, visitId: null, after: null };
        const drafts = [
          {
            id: randomUUIDv7(),
            kind: 'weight',
            format: 1,
            payload: { weightKg: 70, cavity: 'full' },
            patientId,
            ...at,
          },
        ] as const;
        const result = await record.append({ siteId: SITE, wardId: WARD, author, deviceAt: Date.now(), drafts });
        if (!result.ok) throw new Error(JSON.stringify(result.failure));
        // its way to the boards
        await db.query({ ...READ_CHANGED, values: [SITE, WARD, result.appended.position - 1] });
      };
      const count = async () => {
        for (const patientId of patientIds) await weigh(patientId);
        const entries: number[] = [];
        for (let turn = 0; turn < ENTRIES; turn += 1) {
          entries.push(await buffersOf(superuser, db, () => weigh(patientIds[0]!)));
        }
        const board = await buffersOf(superuser, db, () => db.query({ ...READ_BOARD, values: [SITE, WARD] }));
        // a page that fills up now and then is not of the history: the middle one counts
        return { board, entry: median(entries) };
      };
      const beds = patientIds.map((patientId) => ({ siteId: SITE, wardId: WARD, patientId }));
      await grow(superuser, beds, 1);
      const day = await count();
      await grow(superuser, beds, 364);
      const year = await count();
      return (['board', 'entry'] as const).map((what) => ({
        what: `buffers touched by ${what}, 1 year ÷ 1 day of history`,
        value: year[what] / day[what],
        unit: '×',
        bar: { at: 'most', value: 1.1 },
        quartiles: null,
        beside: `${day[what]} → ${year[what]} buffers, ${PATIENTS} patients`,
      }));
    } finally {
      await superuser.end();
      await db.end();
      await database.drop();
    }
  },
};
