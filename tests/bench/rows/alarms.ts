import { setTimeout } from 'node:timers/promises';
import { diary } from '@slackwater/api/demo/diary';
import { writeStory } from '@slackwater/api/demo/write-story';
import { openWard } from '@slackwater/api/record/open-ward';
import { type Entry, fold, HOUR_MS, MINUTE_MS, nextChangeAt } from '@slackwater/domain';
import { NO_LIMITS } from '@slackwater/domain/testing/no-limits';
import { type BenchDatabases, pool } from '../harness/databases.ts';
import type { Measure, Row } from '../harness/measure.ts';
import { quantile, quartiles } from '../harness/quantiles.ts';
import { serveApp } from '../harness/servers.ts';
import { addPatient, SITE, seedWard } from '../harness/ward.ts';

const WARDS = 10;
const BEDS = 200;
const DUE = WARDS * BEDS;
/** Enough to write them and to start the server; a machine that is slower is given more. */
const AHEAD_MS = [30_000, 90_000, 180_000];
const WAIT_FOR_MS = 30_000;

/** 2,000 drains of ten wards that fall overdue at one instant: how late the server's alarms stand in the record. */
export const alarms: Row = {
  name: 'alarms',
  async run({ databases }) {
    for (const aheadMs of AHEAD_MS) {
      const late = await measureLateness(databases, aheadMs);
      if (late !== null) return [measureOf(late)];
    }
    throw new Error('This machine is too slow: the alarms fell due before the server ran.');
  },
};

const measureOf = (late: readonly number[]): Measure => ({
  what: `alarm lateness, ${DUE.toLocaleString('en')} due at once, p99`,
  value: quantile(late, 0.99),
  unit: 'ms',
  bar: { at: 'most', value: 1000 },
  quartiles: quartiles(late),
  beside: `median ${Math.round(quantile(late, 0.5))} ms, last ${Math.round(Math.max(...late))} ms; one process, ${WARDS} wards; each once`,
});

/** @returns how late each alert stood in the record, ms; null when they fell due before the server ran */
async function measureLateness(databases: BenchDatabases, aheadMs: number): Promise<readonly number[] | null> {
  const database = await databases.open();
  const db = pool(database.appUrl);
  const { scenario, policy, accounts } = await seedWard(db, 1);
  const [person] = scenario.patients;
  const loginOf = (role: string) => scenario.staff.find((one) => one.role === role)!.login;
  const now = Date.now();
  const story = (patientId: string, bed: string, fillEndedAt: number) =>
    dwelling(patientId, bed, fillEndedAt, { charge: loginOf('chargeNurse'), physician: loginOf('nephrologist') });
  // the instant moves with the fill, so one look tells which fill falls due when it shall
  const lookedAt = now - 3 * HOUR_MS;
  const probe = story('00000000-0000-4000-8000-000000000000', '1', lookedAt).map(
    ({ draft }, index) =>
      ({
        ...draft,
        siteId: SITE,
        wardId: 'w1',
        author: null,
        deviceAt: null,
        receivedAt: now,
        position: index + 1,
      }) as Entry,
  );
  const change = nextChangeAt(fold(probe[0]!.patientId!, probe, policy).state, now, policy);
  if (change === null) throw new Error('Nothing falls due for a dwelling fill.');
  const dueAt = now + aheadMs;
  const fillEndedAt = lookedAt + (dueAt - change);

  const client = await db.connect();
  await client.query('BEGIN');
  for (let ward = 1; ward <= WARDS; ward += 1) {
    const wardId = `w${ward}`;
    const beds = Array.from({ length: BEDS }, (_, index) => String(index + 1));
    await openWard(client, { siteId: SITE, ...scenario.ward, id: wardId, beds });
    for (const bed of beds) {
      const patientId = await addPatient(client, { ...person!, hospitalNumber: `AP ${wardId}-${bed}` });
      const told = { siteId: SITE, wardId, patientId, policy, accounts, now };
      await writeStory(client, told, story(patientId, bed, fillEndedAt));
    }
  }
  await client.query('COMMIT');
  client.release();
  const app = await serveApp(database.appUrl);
  try {
    if (Date.now() > dueAt - 1000) return null;
    const count = async () => {
      const { rows } = await db.query<{ due: number }>(
        `SELECT count(*)::int AS due FROM bedside WHERE site_id = $1 AND ward_id LIKE 'w_%' AND next_change_at <= $2`,
        [SITE, new Date(dueAt)],
      );
      return rows[0]!.due;
    };
    const due = await count();
    if (due !== DUE) throw new Error(`${due} fall due at that instant, not ${DUE}.`);
    while ((await setTimeout(500, Date.now())) < dueAt || (await count()) > 0) {
      if (Date.now() > dueAt + WAIT_FOR_MS)
        throw new Error(`${await count()} were not dealt with in ${WAIT_FOR_MS} ms.`);
    }
    const { rows } = await db.query<{ lateMs: number }>(
      `SELECT (extract(epoch FROM received_at) * 1000)::float8 - $2::float8 AS "lateMs" FROM entry
        WHERE site_id = $1 AND ward_id LIKE 'w_%' AND kind = 'alertRaised'`,
      [SITE, dueAt],
    );
    const late = rows.map(({ lateMs }) => lateMs);
    if (late.length !== DUE) throw new Error(`${late.length} alerts were raised, not ${DUE}.`);
    return late;
  } finally {
    await app.stop();
    await db.end();
    await database.drop();
  }
}

/** Admitted with 2 L inside since `fillEndedAt`, prescribed to dwell for four hours. */
function dwelling(patientId: string, bed: string, fillEndedAt: number, by: { charge: string; physician: string }) {
  const book = diary(patientId);
  const inside = { cavity: 'holding', solutionId: 'glucose-2.27', filledMl: 2000, fillEndedAt } as const;
  book.observe('admitted', fillEndedAt + MINUTE_MS, by.charge, { bed, inside, dialysis: 'chronic' });
  book.observe('prescribed', fillEndedAt + 2 * MINUTE_MS, by.physician, {
    items: ['a', 'b', 'c', 'd'].map((id) => ({
      id,
      solutionId: 'glucose-2.27',
      fillMl: 2000,
      additives: [],
      dwell: { by: 'length', dwellMinutes: 240 },
      windowMinutes: 30,
      condition: null,
    })),
    limits: NO_LIMITS,
    acute: false,
    note: null,
    reviewBy: null,
  });
  return book.written;
}
