import { type BedsideState, conditionsAt, settle } from '@slackwater/domain';
import { pool } from '../harness/databases.ts';
import type { Row } from '../harness/measure.ts';
import { median, quartiles } from '../harness/quantiles.ts';
import { SITE, seedWard } from '../harness/ward.ts';

const PATIENTS = 200;
const WARM_UP = 20;

/** Every rule for every bedside of a full ward, as a sweep that takes all of them would ask. */
export const rules: Row = {
  name: 'rules',
  async run({ databases, pace }) {
    const database = await databases.open();
    const db = pool(database.appUrl);
    const { policy } = await seedWard(db, PATIENTS);
    const { rows } = await db.query<{ state: BedsideState }>('SELECT state FROM bedside WHERE site_id = $1', [SITE]);
    await db.end();
    await database.drop();
    const states = rows.map(({ state }) => state);
    if (states.length !== PATIENTS) throw new Error(`${states.length} bedsides stand there, not ${PATIENTS}.`);
    const now = Date.now();
    const passes = pace.windowMs < 1000 ? 50 : 400;
    let found = 0;
    const timed = (pass: (state: BedsideState) => number): number[] =>
      Array.from({ length: passes + WARM_UP }, () => {
        const from = performance.now();
        for (const state of states) found += pass(state);
        return performance.now() - from;
      }).slice(WARM_UP);
    const conditions = timed((state) => conditionsAt(state, now, policy).length);
    const settled = timed((state) => settle(state, now, policy).length);
    return [
      {
        what: `alert rules for ${PATIENTS} patients`,
        value: median(conditions),
        unit: 'ms',
        bar: { at: 'most', value: 5 },
        quartiles: quartiles(conditions),
        beside: `with what is to be written ${median(settled).toFixed(2)} ms; ${found} answers in ${2 * (passes + WARM_UP)} passes`,
      },
    ];
  },
};
