import { type Draft, FOLD_VERSION, HOUR_MS, MINUTE_MS } from '@slackwater/domain';
import type pg from 'pg';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { sweep } from '../../apps/api/src/alarms/sweep.ts';
import { createPolicies } from '../../apps/api/src/record/policies.ts';
import { rebuild } from '../../apps/api/src/record/rebuild.ts';
import { FOLDED_TABLE_NAMES } from '../../apps/api/src/record/rows/tables.ts';
import { write } from '../../apps/api/src/record/write.ts';
import { type FreshDatabase, freshDatabase } from '../support/database.ts';
import {
  close,
  draft,
  exchange,
  inBed,
  mustAppend,
  OTHER_WARD,
  pool,
  prescribed,
  SITE,
  type TestWard,
  testWard,
  toldOfFluid,
  WARD,
} from './record-ward.ts';

let database: FreshDatabase;
let db: pg.Pool;
let ward: TestWard;
beforeAll(async () => {
  database = await freshDatabase();
  db = pool(database.appUrl);
  ward = await testWard(db);
});
afterAll(async () => {
  await close(db);
  await database.drop();
});

const hoursAgo = (hours: number) => Date.now() - hours * HOUR_MS;

/** A course with everything that leaves rows behind: exchanges, alerts, orders, corrections, a transfer. */
async function course(): Promise<void> {
  const { nurse, charge, physician, other } = ward.actors;
  const bed = await inBed(ward, '1', hoursAgo(30), { dwellMinutes: 120 });
  const of = (at: number) => ({ patientId: bed.patientId, happenedAt: at });
  const write = (author: typeof nurse, ...drafts: Draft[]) => mustAppend(ward, author, drafts);
  await write(charge, draft('dialysisPeriod', { event: 'started', modality: 'chronic', note: null }, of(hoursAgo(29))));
  await write(
    charge,
    draft(
      'assigned',
      { accountId: nurse.accountId, name: 'Nell Ward', from: hoursAgo(29), to: hoursAgo(17) },
      of(hoursAgo(29)),
    ),
  );
  const first = exchange(bed, hoursAgo(28), null, { drainedMl: 2100 });
  await write(nurse, ...first);
  const second = exchange(bed, hoursAgo(20), first.at(-1)!.id, { drainedMl: 1800 });
  await write(nurse, ...second);
  await write(nurse, ...exchange(bed, hoursAgo(24), first.at(-1)!.id, { drainedMl: 2200 }));
  await write(nurse, draft('weight', { weightKg: 71, cavity: 'full' }, of(hoursAgo(19))));
  await write(
    nurse,
    draft('bloodPressure', { systolicMmHg: 130, diastolicMmHg: 80, position: 'lying' }, of(hoursAgo(18))),
  );
  await write(
    nurse,
    draft('otherFluid', { direction: 'out', route: 'urine', volumeMl: 400, note: null }, of(hoursAgo(18))),
  );
  const order = draft(
    'ordered',
    { content: { what: 'drainNow' }, note: null, telephone: { physician: 'Dr Pia Ward', readBack: true } },
    of(hoursAgo(17)),
  );
  await write(nurse, order);
  await write(physician, draft('countersigned', { orderId: order.id }, of(hoursAgo(16))));
  const revision = prescribed(bed.patientId, hoursAgo(16), 300);
  await write(physician, revision);
  const measure = second.find(({ kind }) => kind === 'measure')!;
  await write(
    charge,
    draft(
      'corrected',
      {
        target: measure.id,
        reason: 'misread',
        payload: { ...measure.payload, volumeMl: 2250 },
        happenedAt: measure.happenedAt,
      },
      of(hoursAgo(15)),
    ),
  );
  await write(other, ...exchange({ ...bed, revisionId: revision.id }, hoursAgo(14), second.at(-1)!.id).slice(0, 3));
  await write(charge, draft('movedBed', { bed: '2' }, of(hoursAgo(10))));
  const away = await inBed(ward, '3', hoursAgo(9));
  await write(
    charge,
    draft(
      'transferredOut',
      { toWardId: OTHER_WARD, ...(await toldOfFluid(db, away.patientId)) },
      { patientId: away.patientId, happenedAt: hoursAgo(2) },
    ),
    draft('transferredIn', { fromWardId: WARD, bed: '5' }, { patientId: away.patientId, happenedAt: hoursAgo(2) }),
  );
  const home = await inBed(ward, '4', hoursAgo(9));
  await write(
    charge,
    draft(
      'discharged',
      { to: 'home', handover: null, ...(await toldOfFluid(db, home.patientId)) },
      { patientId: home.patientId, happenedAt: hoursAgo(1) },
    ),
  );
}

/** Everything that is folded, as text; when alarms look again is of the moment and left out. */
async function folded(): Promise<Record<string, unknown[]>> {
  const tables = await Promise.all(
    FOLDED_TABLE_NAMES.map(
      async (table) => [table, await rowsOf(`SELECT to_jsonb(t) AS row FROM ${table} t`)] as const,
    ),
  );
  return {
    ...Object.fromEntries(tables),
    bedside: await rowsOf("SELECT to_jsonb(t) - 'next_change_at' AS row FROM bedside t"),
  };
}
const rowsOf = async (sql: string) => (await db.query(`${sql} ORDER BY 1`)).rows.map(({ row }) => row);

const policies = createPolicies();
const sweepAll = async () => {
  for (;;) {
    const { taken, failed } = await sweep(db, policies, SITE);
    expect(failed).toEqual([]);
    if (taken === 0) return;
  }
};

test('what is folded comes out the same when it is made anew from the entries', async () => {
  await course();
  await sweepAll();
  const before = await folded();
  for (const table of FOLDED_TABLE_NAMES.filter((name) => name !== 'catheter_event')) {
    expect(before[table], table).not.toEqual([]);
  }

  await rebuild(db, policies, SITE);
  expect(await folded()).toEqual(before);

  await db.query(`UPDATE bedside SET state = jsonb_set(state::jsonb, '{cavity}', '{"state": "empty", "since": 0}')`);
  await db.query('UPDATE dwell SET drained_ml = drained_ml + 100');
  await db.query('DELETE FROM observation');
  await db.query("UPDATE clinical_order SET ended = 'done', ended_at = now() WHERE ended IS NULL");
  await db.query('DELETE FROM prescription_item');
  expect(await folded()).not.toEqual(before);
  const heard: number[] = [];
  const count = await rebuild(db, policies, SITE, (done) => heard.push(done));
  expect(await folded()).toEqual(before);
  expect(heard).toEqual(Array.from({ length: count }, (_, index) => index + 1));
});

test('after new settings everybody on the ward stands as if the record were folded under them', async () => {
  const quiet = await inBed(ward, '21', hoursAgo(9));
  const busy = await inBed(ward, '22', hoursAgo(9));
  for (const bed of [quiet, busy]) {
    const first = exchange(bed, hoursAgo(5), null);
    await mustAppend(ward, ward.actors.nurse, first);
    await mustAppend(ward, ward.actors.nurse, exchange(bed, hoursAgo(1), first.at(-1)!.id));
  }
  await sweepAll();
  const beds = [quiet.patientId, busy.patientId];
  const seen = async () => {
    const of = (sql: string) => db.query(`${sql} WHERE patient_id = ANY($1) ORDER BY 1`, [beds]);
    return [
      (await of("SELECT patient_id, to_jsonb(bedside) - 'next_change_at' AS row FROM bedside")).rows,
      (await of('SELECT to_jsonb(dwell) AS row FROM dwell')).rows,
    ];
  };
  const before = await seen();
  const { rows } = await db.query('SELECT settings_version AS v FROM ward WHERE id = $1', [WARD]);
  const changes = { residualMl: 600, shortDrainBelowFillPercent: 99, overdueMostMinutes: 11 };
  const settings = draft(
    'settingsChanged',
    { version: rows[0].v + 1, changes },
    { patientId: null, happenedAt: Date.now() },
  );
  await mustAppend(ward, ward.actors.manager, [settings]);
  // One is written for before the alarms look, the other is not.
  await mustAppend(ward, ward.actors.nurse, [
    draft(
      'weight',
      { weightKg: 70, cavity: 'full' },
      { patientId: busy.patientId, happenedAt: Date.now() - MINUTE_MS },
    ),
  ]);
  await sweepAll();
  const after = await seen();
  expect(after[0]).not.toEqual(before[0]);
  expect(after[1]).not.toEqual(before[1]);
  await rebuild(db, policies, SITE);
  expect(await seen()).toEqual(after);
});

test('a rebuild finds each patient under the settings it stands under: of its ward now, or as it left', async () => {
  const { nurse, charge, manager } = ward.actors;
  const change = async (wardId: string, shortDrainBelowFillPercent: number) => {
    const { rows } = await db.query('SELECT settings_version AS v FROM ward WHERE id = $1', [wardId]);
    const payload = { version: rows[0].v + 1, changes: { shortDrainBelowFillPercent, residualMl: 300 } };
    await mustAppend(
      ward,
      manager,
      [draft('settingsChanged', payload, { patientId: null, happenedAt: Date.now() })],
      wardId,
    );
  };
  const isWhole = async ({ patientId }: { patientId: string }) => {
    const { rows } = await db.query('SELECT complete FROM dwell WHERE patient_id = $1 AND drained_at IS NOT NULL', [
      patientId,
    ]);
    expect(rows).toHaveLength(1);
    return rows[0].complete;
  };
  const of = ({ patientId }: { patientId: string }, at: number) => ({ patientId, happenedAt: at });
  // 98 % of what went in
  const drainedMl = 1960;
  await change(WARD, 80);
  await change(OTHER_WARD, 99);
  const [moved, gone] = [await inBed(ward, '24', hoursAgo(9)), await inBed(ward, '25', hoursAgo(9))];
  const first = exchange(moved, hoursAgo(5), null, { drainedMl });
  await mustAppend(ward, nurse, first);
  await mustAppend(ward, nurse, exchange(gone, hoursAgo(5), null, { drainedMl }));
  const told = ({ patientId }: { patientId: string }) => toldOfFluid(db, patientId);
  await mustAppend(ward, charge, [
    draft('transferredOut', { toWardId: OTHER_WARD, ...(await told(moved)) }, of(moved, hoursAgo(3))),
    draft('transferredIn', { fromWardId: WARD, bed: '6' }, of(moved, hoursAgo(3))),
  ]);
  const home = { to: 'home', handover: null, ...(await told(gone)) };
  await mustAppend(ward, charge, [draft('discharged', home, of(gone, hoursAgo(3)))]);
  await sweepAll();
  expect([await isWhole(moved), await isWhole(gone)]).toEqual([false, true]);

  const expectSameAnew = async () => {
    const before = await folded();
    await rebuild(db, policies, SITE);
    expect(await folded()).toEqual(before);
  };
  await expectSameAnew();
  // the ward that one has left, and the other lay on, wants more of a drain from now on
  await change(WARD, 99);
  await sweepAll();
  expect([await isWhole(moved), await isWhole(gone)]).toEqual([false, true]);
  await expectSameAnew();

  // put right from the ward that was left: still under the ward of the stay
  await change(OTHER_WARD, 90);
  const weight = draft('weight', { weightKg: 70, cavity: 'full' }, of(moved, hoursAgo(2)));
  await mustAppend(ward, nurse, [weight], OTHER_WARD);
  const measure = first.find(({ kind }) => kind === 'measure')!;
  const { payload, happenedAt } = measure as Draft<'measure'>;
  await mustAppend(ward, charge, [
    draft(
      'corrected',
      { target: measure.id, reason: 'misread', payload: { ...payload, volumeMl: drainedMl + 10 }, happenedAt },
      of(moved, Date.now()),
    ),
  ]);
  // what comes in late about who has left stands under the settings of its own time, and all before with it
  await mustAppend(ward, nurse, [draft('weight', { weightKg: 70, cavity: 'full' }, of(gone, hoursAgo(4)))]);
  await sweepAll();
  expect([await isWhole(moved), await isWhole(gone)]).toEqual([true, false]);
  await expectSameAnew();
});

test('a decision under the settings before does not outlive their change', async () => {
  const bed = await inBed(ward, '23', hoursAgo(6));
  await db.query('UPDATE bedside SET fold_version = 0 WHERE patient_id = $1', [bed.patientId]);
  const { rows } = await db.query('SELECT state, version FROM bedside WHERE patient_id = $1', [bed.patientId]);
  const [{ state, version }] = rows;
  const bedside = { patientId: bed.patientId, seen: version, version, state, nextChangeAt: null };
  const what = { siteId: SITE, wardId: WARD, entries: [], rows: {}, replace: false, settings: null };
  expect(await write(db, { ...what, bedsides: [{ ...bedside, seenFold: FOLD_VERSION }] })).toBeNull();
});

test('a state of an older fold is folded anew by the next who writes', async () => {
  const bed = await inBed(ward, '20', hoursAgo(6));
  await mustAppend(ward, ward.actors.nurse, exchange(bed, hoursAgo(2), null));
  await db.query(
    `UPDATE bedside SET fold_version = 0, state = jsonb_set(state::jsonb, '{head}', '"nonsense"') WHERE patient_id = $1`,
    [bed.patientId],
  );
  const weight = draft(
    'weight',
    { weightKg: 70, cavity: 'full' },
    { patientId: bed.patientId, happenedAt: Date.now() - MINUTE_MS },
  );
  const { bedside } = await mustAppend(ward, ward.actors.nurse, [weight]);
  expect(bedside?.head).not.toBe('nonsense');
  expect(bedside?.lastDwells[0]?.drainMinusFillMl).toBe(350);
});
