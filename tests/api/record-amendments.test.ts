import { randomUUID } from 'node:crypto';
import { type Draft, HOUR_MS, MINUTE_MS } from '@slackwater/domain';
import type pg from 'pg';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type FreshDatabase, freshDatabase } from '../support/database.ts';
import {
  close,
  draft,
  exchange,
  inBed,
  mustAppend,
  mustFail,
  type Prescribed,
  pool,
  send,
  type TestWard,
  testWard,
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

const corrected = (patientId: string, target: Draft, payload: object, happenedAt = target.happenedAt) =>
  draft(
    'corrected',
    { target: target.id, reason: 'misread', payload: payload as Record<string, unknown>, happenedAt },
    { patientId, happenedAt: Date.now() },
  );
const retracted = (patientId: string, target: Draft, enteredAs: string | null = null) =>
  draft('retracted', { target: target.id, reason: 'wrong', enteredAs }, { patientId, happenedAt: Date.now() });

const weigh = async (bed: Prescribed, weightKg: number) => {
  const weight = draft('weight', { weightKg, cavity: 'full' }, { patientId: bed.patientId, happenedAt: hoursAgo(1) });
  await mustAppend(ward, ward.actors.nurse, [weight]);
  return weight;
};
const observedKg = async ({ patientId }: Prescribed) =>
  (await db.query('SELECT weight_kg FROM observation WHERE patient_id = $1', [patientId])).rows.map(
    (row) => row.weight_kg,
  );

describe('corrections', () => {
  test('a corrected measure counts as corrected, and the first one stays readable', async () => {
    const bed = await inBed(ward, freeBed(), hoursAgo(6));
    const drafts = exchange(bed, hoursAgo(1), null);
    await mustAppend(ward, ward.actors.nurse, drafts);
    const measure = drafts.find(({ kind }) => kind === 'measure')!;
    const { bedside } = await mustAppend(ward, ward.actors.nurse, [
      corrected(bed.patientId, measure, { ...measure.payload, volumeMl: 2150 }),
    ]);
    // 2,150 mL out, 2,000 mL in: by hand.
    expect(bedside?.lastDwells[0]?.drainMinusFillMl).toBe(150);
    const { rows } = await db.query('SELECT bytes FROM entry_payload WHERE entry_id = $1', [measure.id]);
    expect(JSON.parse(rows[0].bytes.toString())).toMatchObject({ volumeMl: 2350 });
    const dwells = await db.query(
      'SELECT drain_minus_fill_ml AS ml FROM dwell WHERE patient_id = $1 AND drained_ml > 0',
      [bed.patientId],
    );
    expect(dwells.rows).toEqual([{ ml: 150 }]);
  });

  test('of two corrections of one entry one conflicts', async () => {
    const bed = await inBed(ward, freeBed(), hoursAgo(6));
    const weight = await weigh(bed, 70);
    const results = await Promise.all(
      [71, 72].map((weightKg) =>
        send(ward.record, ward.actors.nurse, [corrected(bed.patientId, weight, { weightKg, cavity: 'full' })]),
      ),
    );
    expect(results.filter(({ ok }) => ok)).toHaveLength(1);
    expect(results.find(({ ok }) => !ok)).toMatchObject({ failure: { code: 'taken' } });
  });

  test('a correction may itself be corrected, and a retracted one gives the first word back', async () => {
    const bed = await inBed(ward, freeBed(), hoursAgo(6));
    const weight = await weigh(bed, 70);
    const first = corrected(bed.patientId, weight, { weightKg: 71, cavity: 'full' });
    const second = corrected(bed.patientId, first, { weightKg: 72, cavity: 'full' }, weight.happenedAt);
    await mustAppend(ward, ward.actors.nurse, [first]);
    expect(await observedKg(bed)).toEqual([71]);
    await mustAppend(ward, ward.actors.nurse, [second]);
    expect(await observedKg(bed)).toEqual([72]);
    await mustAppend(ward, ward.actors.nurse, [retracted(bed.patientId, second)]);
    expect(await observedKg(bed)).toEqual([71]);
  });

  test('a value outside the range of its kind is refused', async () => {
    const bed = await inBed(ward, freeBed(), hoursAgo(6));
    const weight = await weigh(bed, 70);
    const failure = await mustFail(ward, ward.actors.nurse, [
      corrected(bed.patientId, weight, { weightKg: 700, cavity: 'full' }),
    ]);
    expect(failure).toMatchObject({ code: 'refused', problems: [{ value: 700 }] });
  });

  test('a step is not moved before the one it follows, nor after the one that follows it', async () => {
    const bed = await inBed(ward, freeBed(), hoursAgo(6));
    const drafts = exchange(bed, hoursAgo(1), null);
    await mustAppend(ward, ward.actors.nurse, drafts);
    const endDrain = drafts.find(({ kind }) => kind === 'endDrain')!;
    const moved = (minutes: number) =>
      corrected(bed.patientId, endDrain, endDrain.payload, endDrain.happenedAt + minutes * MINUTE_MS);
    expect(await mustFail(ward, ward.actors.nurse, [moved(-16)])).toMatchObject({
      problems: [{ code: 'before-its-after' }],
    });
    expect(await mustFail(ward, ward.actors.nurse, [moved(3)])).toMatchObject({
      problems: [{ code: 'after-its-next' }],
    });
    const { bedside } = await mustAppend(ward, ward.actors.nurse, [moved(1)]);
    expect(bedside?.lastDwells[0]?.drainedAt).toBe(endDrain.happenedAt + MINUTE_MS);
  });

  test("another nurse's entry is corrected by who may correct any, not by a nurse", async () => {
    const bed = await inBed(ward, freeBed(), hoursAgo(6));
    const weight = await weigh(bed, 70);
    const other = corrected(bed.patientId, weight, { weightKg: 71, cavity: 'full' });
    expect(await mustFail(ward, ward.actors.other, [other])).toMatchObject({ problems: [{ code: 'not-own' }] });
    await mustAppend(ward, ward.actors.charge, [{ ...other, id: randomUUID() }]);
  });
});

describe('retractions', () => {
  test('the last step is taken back; one that others follow is not', async () => {
    const bed = await inBed(ward, freeBed(), hoursAgo(6));
    const [prepare, connect, startDrain] = exchange(bed, hoursAgo(1), null) as [Draft, Draft, Draft];
    await mustAppend(ward, ward.actors.nurse, [prepare, connect, startDrain]);
    expect(await mustFail(ward, ward.actors.nurse, [retracted(bed.patientId, connect)])).toMatchObject({
      problems: [{ code: 'step-followed' }],
    });
    const { bedside } = await mustAppend(ward, ward.actors.nurse, [retracted(bed.patientId, startDrain)]);
    expect(bedside?.visit?.state).toBe('connected');
    expect(bedside?.head).toBe(connect.id);
    const { rows } = await db.query('SELECT ended FROM visit WHERE patient_id = $1', [bed.patientId]);
    expect(rows).toEqual([{ ended: null }]);
  });

  test('wrong patient: entered there, retracted here, linked; the visit is gone here and whole there', async () => {
    const [here, there] = [await inBed(ward, freeBed(), hoursAgo(6)), await inBed(ward, freeBed(), hoursAgo(6))];
    const wrong = exchange(here, hoursAgo(1), null);
    await mustAppend(ward, ward.actors.nurse, wrong);
    const right = exchange(there, hoursAgo(1), null);
    await mustAppend(ward, ward.actors.nurse, right);
    const takenBack = wrong.map((entry, index) => retracted(here.patientId, entry, right[index]!.id)).toReversed();
    const { bedside } = await mustAppend(ward, ward.actors.nurse, takenBack);
    expect(bedside).toMatchObject({ head: null, visit: null, lastVisit: null, lastDwells: [] });
    expect(bedside?.cavity).toMatchObject({ state: 'holding', fills: [{ filledMl: 2000 }] });
    const visits = await db.query('SELECT patient_id FROM visit WHERE patient_id = ANY($1)', [
      [here.patientId, there.patientId],
    ]);
    expect(visits.rows).toEqual([{ patient_id: there.patientId }]);
  });

  test('an entry of another patient is no target', async () => {
    const [here, there] = [await inBed(ward, freeBed(), hoursAgo(6)), await inBed(ward, freeBed(), hoursAgo(6))];
    const weight = await weigh(there, 70);
    expect(await mustFail(ward, ward.actors.nurse, [retracted(here.patientId, weight)])).toMatchObject({
      problems: [{ code: 'unknown-target' }],
    });
  });
});

describe('a late visit', () => {
  test('goes whole into the gap between two recorded ones, and counts there', async () => {
    const bed = await inBed(ward, freeBed(), hoursAgo(12));
    const first = exchange(bed, hoursAgo(9), null, { drainedMl: 2100 });
    await mustAppend(ward, ward.actors.nurse, first);
    const head = first.at(-1)!.id;
    const last = exchange(bed, hoursAgo(1), head, { drainedMl: 2300 });
    await mustAppend(ward, ward.actors.nurse, last);

    const late = exchange(bed, hoursAgo(5), head, { drainedMl: 2200 });
    const { bedside } = await mustAppend(ward, ward.actors.other, late);
    // 2,300, 2,200, 2,100 mL out of 2,000 mL each, newest first: by hand.
    expect(bedside?.lastDwells.map((dwell) => dwell.drainMinusFillMl)).toEqual([300, 200, 100]);
    expect(bedside?.head).toBe(last.at(-1)!.id);
  });

  test('that nobody watched goes in with its unknowns; at the bed they are refused by field', async () => {
    const unseen = { noLeak: null, clear: null, warmed: null, sealWhole: null, mixed: null };
    /** Of an ordinary exchange without a measure: what nobody watched of it. */
    const unwatched = (drafts: readonly Draft[], marks: boolean) =>
      drafts
        .filter(({ kind }) => kind !== 'measure')
        .map((one) => {
          const afterwards = one.kind === 'prepare' ? true : { secondPerson: null };
          const changes: Readonly<Record<string, object>> = {
            prepare: { identifiers: null, bagChecks: unseen, ...(marks && { afterwards }) },
            endDrain: { flow: null },
            startFill: { flushMl: null, sealBroken: null, noLeak: null, ...(marks && { afterwards }) },
            endFill: { infused: { basis: 'notKnown' } },
          };
          return { ...one, payload: { ...one.payload, ...changes[one.kind] } } as Draft;
        });
    const bed = await inBed(ward, freeBed(), hoursAgo(12));
    const first = exchange(bed, hoursAgo(9), null, { drainedMl: 2100 });
    await mustAppend(ward, ward.actors.nurse, first);
    const head = first.at(-1)!.id;
    const last = exchange(bed, hoursAgo(1), head, { drainedMl: 2300 });
    await mustAppend(ward, ward.actors.nurse, last);
    const late = unwatched(exchange(bed, hoursAgo(5), head), true);
    const { bedside } = await mustAppend(ward, ward.actors.nurse, late);
    // The dwell before it has no drain volume, the one after it no fill: neither is zero.
    expect(bedside?.lastDwells.map((dwell) => dwell.drainMinusFillMl)).toEqual([null, null, 100]);
    expect(bedside?.lastDwells[1]?.drains[0]).toMatchObject({ appearance: [], flow: null, drainedMl: null });

    const now = await inBed(ward, freeBed(), hoursAgo(12));
    const failure = await mustFail(ward, ward.actors.nurse, unwatched(exchange(now, hoursAgo(0.1), null), false));
    expect(failure).toMatchObject({ code: 'refused' });
    const fields = 'problems' in failure ? failure.problems.map(({ code, field }) => [code, field]) : [];
    expect(fields).toContainEqual(['not-watched', 'entries.0.payload.identifiers']);
    expect(fields).toContainEqual(['not-watched', 'entries.0.payload.bagChecks.noLeak']);
  });

  test('that lies over a recorded one, or is not whole, is a conflict', async () => {
    const bed = await inBed(ward, freeBed(), hoursAgo(12));
    const first = exchange(bed, hoursAgo(9), null);
    await mustAppend(ward, ward.actors.nurse, first);
    const head = first.at(-1)!.id;
    await mustAppend(ward, ward.actors.nurse, exchange(bed, hoursAgo(1), head));
    expect(await mustFail(ward, ward.actors.other, exchange(bed, hoursAgo(1.2), head))).toMatchObject({
      code: 'conflict',
    });
    expect(await mustFail(ward, ward.actors.other, exchange(bed, hoursAgo(5), head).slice(0, 4))).toMatchObject({
      code: 'conflict',
    });
  });

  test('is judged as it would have been then', async () => {
    const bed = await inBed(ward, freeBed(), hoursAgo(12));
    const first = exchange(bed, hoursAgo(9), null);
    await mustAppend(ward, ward.actors.nurse, first);
    const head = first.at(-1)!.id;
    await mustAppend(ward, ward.actors.nurse, exchange(bed, hoursAgo(1), head));
    const late = exchange(bed, hoursAgo(5), head, { drainedMl: 9999 });
    expect(await mustFail(ward, ward.actors.other, late)).toMatchObject({ code: 'refused' });
  });
});
