import { randomUUID } from 'node:crypto';
import { HOUR_MS, MINUTE_MS } from '@slackwater/domain';
import type pg from 'pg';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type FreshDatabase, freshDatabase } from '../support/database.ts';
import {
  admitted,
  close,
  draft,
  exchange,
  inBed,
  mustAppend,
  mustFail,
  OTHER_WARD,
  patient,
  pool,
  SITE,
  send,
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

let bedsTaken = 0;
const freeBed = () => {
  bedsTaken += 1;
  return String(bedsTaken);
};
const hoursAgo = (hours: number) => Date.now() - hours * HOUR_MS;
const weightAt = (patientId: string, happenedAt: number, weightKg = 70) =>
  draft('weight', { weightKg, cavity: 'full' }, { patientId, happenedAt });
const countOf = async (id: string) =>
  (await db.query('SELECT count(*)::int AS n FROM entry WHERE site_id = $1 AND id = $2', [SITE, id])).rows[0].n;

test('an exchange goes in whole and comes out as the state of the bed', async () => {
  const bed = await inBed(ward, freeBed(), hoursAgo(6));
  const drafts = exchange(bed, hoursAgo(1), null);
  const { receipts, bedside, position } = await mustAppend(ward, ward.actors.nurse, drafts);
  expect(receipts.map(({ id }) => id)).toEqual(drafts.map(({ id }) => id));
  expect(position).toBeGreaterThanOrEqual(receipts.at(-1)!.position);
  expect(bedside?.head).toBe(drafts.at(-1)!.id);
  expect(bedside?.visit).toBeNull();
  // 2,350 mL out, 2,000 mL in: by hand.
  expect(bedside?.lastDwells[0]?.drainMinusFillMl).toBe(350);
  const { rows } = await db.query(
    'SELECT filled_ml, drained_ml, drain_minus_fill_ml FROM dwell WHERE patient_id = $1 AND drained_at IS NOT NULL',
    [bed.patientId],
  );
  expect(rows).toEqual([{ filled_ml: 2000, drained_ml: 2350, drain_minus_fill_ml: 350 }]);
});

describe('twice is once', () => {
  test('the same batch again is answered with its first receipts, and written once', async () => {
    const bed = await inBed(ward, freeBed(), hoursAgo(6));
    const drafts = exchange(bed, hoursAgo(1), null);
    const first = await mustAppend(ward, ward.actors.nurse, drafts);
    const second = await mustAppend(ward, ward.actors.nurse, drafts);
    expect(second.receipts).toEqual(first.receipts);
    expect(await countOf(drafts[0]!.id)).toBe(1);
  });

  test('a batch that overlaps what stands there is completed', async () => {
    const bed = await inBed(ward, freeBed(), hoursAgo(6));
    const drafts = exchange(bed, hoursAgo(1), null);
    const first = await mustAppend(ward, ward.actors.nurse, drafts.slice(0, 3));
    const all = await mustAppend(ward, ward.actors.nurse, drafts);
    expect(all.receipts.slice(0, 3)).toEqual(first.receipts);
    expect(all.bedside?.visit).toBeNull();
  });

  test.each([
    ['other content', (id: string, patientId: string) => ({ ...weightAt(patientId, 0, 71), id }), 'nurse'],
    ['another author', (id: string, patientId: string) => ({ ...weightAt(patientId, 0), id }), 'other'],
  ] as const)('the same id with %s is refused and shows nothing', async (_, again, author) => {
    const bed = await inBed(ward, freeBed(), hoursAgo(6));
    const at = hoursAgo(1);
    const first = weightAt(bed.patientId, at);
    await mustAppend(ward, ward.actors.nurse, [first]);
    const failure = await mustFail(ward, ward.actors[author], [
      { ...again(first.id, bed.patientId), happenedAt: at } as typeof first,
    ]);
    expect(failure).toEqual({ code: 'idTaken', entryId: first.id });
  });

  test('the same id for another patient is refused', async () => {
    const [one, two] = [await inBed(ward, freeBed(), hoursAgo(6)), await inBed(ward, freeBed(), hoursAgo(6))];
    const first = weightAt(one.patientId, hoursAgo(1));
    await mustAppend(ward, ward.actors.nurse, [first]);
    const failure = await mustFail(ward, ward.actors.nurse, [{ ...first, patientId: two.patientId }]);
    expect(failure).toEqual({ code: 'idTaken', entryId: first.id });
  });
});

describe('two people at one bed', () => {
  test('of two nurses on one step one is first, the other is told who did what and when', async () => {
    const bed = await inBed(ward, freeBed(), hoursAgo(6));
    const [mine, yours] = [exchange(bed, hoursAgo(1), null)[0]!, exchange(bed, hoursAgo(1), null)[0]!];
    const results = await Promise.all([
      send(ward.record, ward.actors.nurse, [mine]),
      send(ward.record, ward.actors.other, [yours]),
    ]);
    expect(results.filter(({ ok }) => ok)).toHaveLength(1);
    const [winner, name] = results[0].ok ? [mine, 'Nell Ward'] : [yours, 'Otto Ward'];
    const loser = results.find((result) => !result.ok);
    expect(loser).toMatchObject({
      failure: {
        code: 'conflict',
        headMoved: { entryId: winner.id, kind: 'prepare', authorName: name, happenedAt: winner.happenedAt },
      },
    });
    const { rows } = await db.query("SELECT count(*)::int AS n FROM entry WHERE patient_id = $1 AND kind = 'prepare'", [
      bed.patientId,
    ]);
    expect(rows[0].n).toBe(1);
  });

  test('observations of two people commute: all are written', async () => {
    const bed = await inBed(ward, freeBed(), hoursAgo(6));
    const weights = Array.from({ length: 12 }, (_, index) => weightAt(bed.patientId, hoursAgo(2) + index, 60 + index));
    const results = await Promise.all(
      weights.map((weight, index) => send(ward.record, index % 2 ? ward.actors.nurse : ward.actors.other, [weight])),
    );
    expect(results.filter(({ ok }) => !ok)).toEqual([]);
  });

  test('a step after one that has not arrived is told to come later', async () => {
    const bed = await inBed(ward, freeBed(), hoursAgo(6));
    const [first, second] = exchange(bed, hoursAgo(1), null) as [ReturnType<typeof draft>, ReturnType<typeof draft>];
    expect(await mustFail(ward, ward.actors.nurse, [second])).toEqual({ code: 'unknownAfter', after: first.id });
    await mustAppend(ward, ward.actors.nurse, [first]);
    await mustAppend(ward, ward.actors.nurse, [second]);
  });
});

test('what is refused is kept with its reasons, and nothing of the batch is written', async () => {
  const bed = await inBed(ward, freeBed(), hoursAgo(6));
  const good = weightAt(bed.patientId, hoursAgo(1));
  const bad = weightAt(bed.patientId, hoursAgo(1), 900);
  const failure = await mustFail(ward, ward.actors.nurse, [good, bad]);
  expect(failure.code).toBe('refused');
  expect(await countOf(good.id)).toBe(0);
  const { rows } = await db.query('SELECT draft, problems FROM refused_entry WHERE entry_id = $1', [bad.id]);
  expect(rows[0].draft.payload.weightKg).toBe(900);
  expect(rows[0].problems[0]).toMatchObject({ field: 'entries.1.payload.weightKg', value: 900 });
});

test('of two patients for one bed one lies in it', async () => {
  const bed = freeBed();
  await inBed(ward, bed, hoursAgo(6));
  const second = await patient(db);
  const failure = await mustFail(ward, ward.actors.charge, [admitted(second, bed, hoursAgo(1), hoursAgo(2))]);
  expect(failure).toMatchObject({ code: 'taken', problems: [{ code: 'bed-taken' }] });
  expect(
    await mustFail(ward, ward.actors.charge, [admitted(second, 'no such', hoursAgo(1), hoursAgo(2))]),
  ).toMatchObject({ code: 'refused', problems: [{ code: 'unknown-bed' }] });
});

test('a transfer writes one entry in each ward, and the fluid inside travels along', async () => {
  const bed = await inBed(ward, freeBed(), hoursAgo(6));
  const at = hoursAgo(1);
  const told = await toldOfFluid(db, bed.patientId);
  const out = draft('transferredOut', { toWardId: OTHER_WARD, ...told }, { patientId: bed.patientId, happenedAt: at });
  const into = draft('transferredIn', { fromWardId: WARD, bed: '40' }, { patientId: bed.patientId, happenedAt: at });
  expect(await mustFail(ward, ward.actors.charge, [out])).toMatchObject({ problems: [{ code: 'half-a-transfer' }] });
  const untold = draft('transferredOut', { toWardId: OTHER_WARD }, { patientId: bed.patientId, happenedAt: at });
  expect(await mustFail(ward, ward.actors.charge, [untold, { ...into, id: randomUUID() }])).toMatchObject({
    problems: [{ code: 'fluid-not-handed-over', field: 'entries.0.payload.fluid' }],
  });
  const { bedside } = await mustAppend(ward, ward.actors.charge, [out, into]);
  expect(bedside?.fluidHandover).toMatchObject({ toWhom: 'Nadia Marsh', to: { ward: OTHER_WARD } });
  expect(bedside?.stay).toMatchObject({ wardId: OTHER_WARD, bed: '40' });
  expect(bedside?.cavity).toMatchObject({ state: 'holding', fills: [{ filledMl: 2000 }] });
  const { rows } = await db.query('SELECT ward_id, kind FROM entry WHERE id = ANY($1) ORDER BY ward_id', [
    [out.id, into.id],
  ]);
  expect(rows).toEqual([
    { ward_id: WARD, kind: 'transferredOut' },
    { ward_id: OTHER_WARD, kind: 'transferredIn' },
  ]);
  // The old ward no longer writes about the patient; the new one does.
  const weight = weightAt(bed.patientId, hoursAgo(0.5));
  expect(await mustFail(ward, ward.actors.nurse, [weight])).toMatchObject({ problems: [{ code: 'on-another-ward' }] });
  await mustAppend(ward, ward.actors.nurse, [{ ...weight, id: randomUUID() }], OTHER_WARD);
});

test('crossing transfers between two wards do not block each other for ever', async () => {
  const pairs = await Promise.all(
    [1, 2, 3].map(async () => ({
      here: await inBed(ward, freeBed(), hoursAgo(6)),
      there: await inBed(ward, freeBed(), hoursAgo(6), { wardId: OTHER_WARD }),
    })),
  );
  const move = async (patientId: string, from: string, to: string, bed: string) =>
    send(
      ward.record,
      ward.actors.charge,
      [
        draft(
          'transferredOut',
          { toWardId: to, ...(await toldOfFluid(db, patientId)) },
          { patientId, happenedAt: hoursAgo(1) },
        ),
        draft('transferredIn', { fromWardId: from, bed }, { patientId, happenedAt: hoursAgo(1) }),
      ],
      from,
    );
  const results = await Promise.all(
    pairs.flatMap(({ here, there }, index) => [
      move(here.patientId, WARD, OTHER_WARD, String(30 + index)),
      move(there.patientId, OTHER_WARD, WARD, String(30 + index)),
    ]),
  );
  expect(results.filter(({ ok }) => !ok)).toEqual([]);
});

describe('settings', () => {
  const change = (version: number, changes: Record<string, number>) =>
    draft('settingsChanged', { version, changes }, { patientId: null, happenedAt: Date.now() });

  test('a change makes the next version, once, and the ward works by it', async () => {
    const { rows } = await db.query('SELECT settings_version AS v FROM ward WHERE id = $1', [WARD]);
    const next = rows[0].v + 1;
    const [one, two] = [change(next, { drainedMostMl: 5000 }), change(next, { drainedMostMl: 5500 })];
    const results = await Promise.all([
      send(ward.record, ward.actors.manager, [one]),
      send(ward.record, ward.actors.manager, [two]),
    ]);
    expect(results.filter(({ ok }) => ok)).toHaveLength(1);
    expect(results.find(({ ok }) => !ok)).toMatchObject({ failure: { code: 'taken' } });

    const bed = await inBed(ward, freeBed(), hoursAgo(6));
    const tooMuch = exchange(bed, hoursAgo(1), null, { drainedMl: 5800 });
    expect(await mustFail(ward, ward.actors.nurse, tooMuch)).toMatchObject({ code: 'refused' });
  });

  test('one outside its range is refused with the range, and so is a nurse', async () => {
    const { rows } = await db.query('SELECT settings_version AS v FROM ward WHERE id = $1', [WARD]);
    const bad = change(rows[0].v + 1, { residualMl: 99_999 });
    expect(await mustFail(ward, ward.actors.manager, [bad])).toMatchObject({
      code: 'refused',
      problems: [{ value: 99_999, allowed: '0 to 1000 mL' }],
    });
    expect(await mustFail(ward, ward.actors.nurse, [change(rows[0].v + 1, {})])).toMatchObject({ code: 'refused' });
  });
});

test('nobody can be written about who is not known', async () => {
  expect(await mustFail(ward, ward.actors.nurse, [weightAt(randomUUID(), hoursAgo(1))])).toEqual({ code: 'notFound' });
});

test('an instant typed as of now is allowed two minutes ahead of the database, and no more', async () => {
  const bed = await inBed(ward, freeBed(), hoursAgo(6));
  await mustAppend(ward, ward.actors.nurse, [weightAt(bed.patientId, Date.now() + MINUTE_MS)]);
  expect(await mustFail(ward, ward.actors.nurse, [weightAt(bed.patientId, Date.now() + 10 * MINUTE_MS)])).toMatchObject(
    {
      code: 'refused',
      problems: [{ field: 'entries.0.happenedAt' }],
    },
  );
});
