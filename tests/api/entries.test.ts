import { randomUUID } from 'node:crypto';
import type { Draft } from '@slackwater/domain';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { admitted, type Browser, DRAIN_ONLY, draft, type Hospital, openHospital, send } from './hospital.ts';

let hospital: Hospital;
let nurse: Browser;
let other: Browser;
let charge: Browser;
let patientId: string;
let bed = 0;

beforeAll(async () => {
  hospital = await openHospital({ beds: 30 });
  nurse = await hospital.signedIn('nurse');
  other = await hospital.signedIn('other-nurse');
  charge = await hospital.signedIn('charge');
});
beforeEach(async () => {
  bed += 1;
  patientId = await admitted(charge, 'kestrel', String(bed));
});
afterAll(() => hospital.close());

const weight = (weightKg = 70, rest: Partial<{ id: string; happenedAt: number }> = {}) =>
  draft('weight', { weightKg, cavity: 'empty' }, { patientId, ...rest });

/** A drain that is prepared without a bag. */
const prepare = (after: string | null = null) =>
  draft('prepare', DRAIN_ONLY, { patientId, visitId: randomUUID(), after });

const entriesOf = async (id = patientId) => (await nurse.get(`/api/patients/${id}/entries?limit=200`)).body.entries;

describe('an entry', () => {
  it('is answered with its place in the record, and read again with who wrote it', async () => {
    const wanted = weight(71.5);
    const answer = await send(nurse, 'kestrel', wanted);
    expect(answer.status).toBe(200);
    const [receipt] = answer.body.receipts;
    expect(receipt).toMatchObject({ id: wanted.id, position: answer.body.position, happenedAt: wanted.happenedAt });
    expect(answer.body.bedside.weight).toMatchObject({ weightKg: 71.5 });
    const [newest] = await entriesOf();
    expect(newest).toMatchObject({
      ...wanted,
      position: receipt.position,
      author: hospital.accounts.nurse,
      authorName: 'Name of nurse',
      correctedBy: null,
      retractedBy: null,
    });
  });

  it('sent twice stands once, and is answered with the same receipt', async () => {
    const wanted = weight();
    const [first, second] = [await send(nurse, 'kestrel', wanted), await send(nurse, 'kestrel', wanted)];
    expect(second.status).toBe(200);
    expect(second.body.receipts).toEqual(first.body.receipts);
    expect((await entriesOf()).filter(({ id }: { id: string }) => id === wanted.id)).toHaveLength(1);
  });

  it('with the id of another says so, and shows nothing of it', async () => {
    const first = weight(70);
    await send(nurse, 'kestrel', first);
    for (const [browser, second] of [
      [nurse, weight(71, { id: first.id })],
      [other, first],
    ] as const) {
      const answer = await send(browser, 'kestrel', second);
      expect(answer).toMatchObject({ status: 409, body: { code: 'idTaken', errors: [] } });
      expect(answer.text).not.toContain('Name of nurse');
    }
  });

  it('has no author but who is signed in', async () => {
    const entry = { ...weight(), author: hospital.accounts.charge };
    const answer = await send(nurse, 'kestrel', entry as unknown as Draft);
    expect(answer).toMatchObject({
      status: 400,
      body: { errors: [{ field: 'entries.0.author', allowed: 'not given' }] },
    });
  });

  it('outside what can be is refused with field, value and range', async () => {
    const answer = await send(nurse, 'kestrel', weight(351));
    expect(answer).toMatchObject({ status: 400, body: { code: 'invalid' } });
    expect(answer.body.errors).toEqual([
      {
        code: 'too_big',
        field: 'entries.0.payload.weightKg',
        value: 351,
        allowed: 'a number from 1 to 350',
        message: 'entries.0.payload.weightKg: 351 is not a number from 1 to 350',
      },
    ]);
  });

  it('from the future is refused by the ward’s clock, whatever the device says', async () => {
    const answer = await send(nurse, 'kestrel', weight(70, { happenedAt: Date.now() + 3_600_000 }));
    expect(answer).toMatchObject({
      status: 422,
      body: { code: 'refused', errors: [{ field: 'entries.0.happenedAt' }] },
    });
  });
});

describe('a batch', () => {
  it('is written whole or not at all', async () => {
    const before = (await entriesOf()).length;
    const answer = await send(nurse, 'kestrel', weight(70), weight(70, { happenedAt: Date.now() + 3_600_000 }));
    expect(answer).toMatchObject({ status: 422, body: { errors: [{ field: 'entries.1.happenedAt' }] } });
    expect(await entriesOf()).toHaveLength(before);
  });

  it('speaks of one patient', async () => {
    const elsewhere = draft('weight', { weightKg: 70, cavity: 'empty' }, { patientId: randomUUID() });
    expect(await send(nurse, 'kestrel', weight(), elsewhere)).toMatchObject({ status: 400, body: { code: 'invalid' } });
  });

  it('for a patient who lies on another ward is not written', async () => {
    const merlin = await hospital.signedIn('merlin-nurse');
    const answer = await send(merlin, 'merlin', weight());
    expect(answer.status).toBe(422);
    expect(answer.text).not.toContain('Fennel');
    expect(await entriesOf()).toHaveLength(1);
  });

  it('for a patient who is not known is not found', async () => {
    const unknown = draft('weight', { weightKg: 70, cavity: 'empty' }, { patientId: randomUUID() });
    expect(await send(nurse, 'kestrel', unknown)).toMatchObject({ status: 404, body: { code: 'notFound' } });
  });
});

describe('two nurses at one bed', () => {
  it('the slower learns who did what and when', async () => {
    const [first, second] = [prepare(), prepare()];
    expect((await send(nurse, 'kestrel', first)).status).toBe(200);
    const answer = await send(other, 'kestrel', second);
    expect(answer).toMatchObject({
      status: 409,
      body: {
        code: 'conflict',
        conflict: { entryId: first.id, kind: 'prepare', authorName: 'Name of nurse', happenedAt: first.happenedAt },
      },
    });
    expect(answer.body.conflict.receivedAt).toBeTypeOf('number');
  });

  it('a step whose forerunner has not arrived is to be sent again', async () => {
    const first = prepare();
    const second = draft('connect', {}, { patientId, visitId: first.visitId!, after: first.id });
    const early = await send(nurse, 'kestrel', second);
    expect(early).toMatchObject({ status: 425, body: { code: 'unknownAfter', retryAfterS: 1 } });
    await send(nurse, 'kestrel', first);
    expect((await send(nurse, 'kestrel', second)).status).toBe(200);
  });
});

describe('a correction', () => {
  const corrected = (target: string, payload: Record<string, unknown>) =>
    draft('corrected', { target, reason: 'typed wrongly', payload, happenedAt: Date.now() }, { patientId });

  it('is checked as what it corrects, and the original stays readable', async () => {
    const wrong = weight(17);
    await send(nurse, 'kestrel', wrong);
    const nonsense = await send(nurse, 'kestrel', corrected(wrong.id, { weightKg: 710, cavity: 'empty' }));
    expect(nonsense).toMatchObject({
      status: 400,
      body: { errors: [{ field: 'entries.0.payload.payload.weightKg', value: 710 }] },
    });
    const right = corrected(wrong.id, { weightKg: 71, cavity: 'empty' });
    expect(await send(nurse, 'kestrel', right)).toMatchObject({
      status: 200,
      body: { bedside: { weight: { weightKg: 71 } } },
    });
    const [newest, before] = await entriesOf();
    expect(newest).toMatchObject({ id: right.id, kind: 'corrected' });
    expect(before).toMatchObject({ id: wrong.id, payload: { weightKg: 17 }, correctedBy: right.id, retractedBy: null });
  });

  it('of a correction is checked as the first of them', async () => {
    const wrong = weight(17);
    const half = corrected(wrong.id, { weightKg: 70, cavity: 'empty' });
    await send(nurse, 'kestrel', wrong);
    await send(nurse, 'kestrel', half);
    const whole = corrected(half.id, { weightKg: 71, cavity: 'half' });
    expect((await send(nurse, 'kestrel', whole)).status).toBe(400);
    const right = corrected(half.id, { weightKg: 71, cavity: 'full' });
    expect(await send(nurse, 'kestrel', right)).toMatchObject({
      status: 200,
      body: { bedside: { weight: { weightKg: 71 } } },
    });
  });

  it('of another’s entry needs the right to it', async () => {
    const wrong = weight(17);
    await send(nurse, 'kestrel', wrong);
    const right = corrected(wrong.id, { weightKg: 71, cavity: 'empty' });
    expect(await send(other, 'kestrel', right)).toMatchObject({ status: 422, body: { code: 'refused' } });
    expect((await send(charge, 'kestrel', right)).status).toBe(200);
  });

  it('cannot reach over from another ward', async () => {
    const wrong = weight(17);
    await send(nurse, 'kestrel', wrong);
    const merlin = await hospital.signedIn('merlin-charge');
    const answer = await send(merlin, 'merlin', corrected(wrong.id, { weightKg: 71, cavity: 'empty' }));
    expect(answer).toMatchObject({ status: 422, body: { errors: [{ field: 'entries.0.payload.target' }] } });
    const retracted = draft('retracted', { target: wrong.id, reason: 'no', enteredAs: null }, { patientId });
    expect((await send(merlin, 'merlin', retracted)).status).toBe(422);
    expect((await entriesOf())[0]).toMatchObject({ id: wrong.id, correctedBy: null, retractedBy: null });
  });
});

describe('the clock of a device', () => {
  const sent = (deviceAt: number, entry: Draft) =>
    nurse.post('/api/entries', { wardId: 'kestrel', deviceAt, entries: [entry] });

  it('that is ahead of the ward’s is refused with whatever it says, and named', async () => {
    // 2 min at most: common practice, the ward's own setting
    const deviceAt = Date.now() + 3 * 60_000;
    const typed = weight(70, { happenedAt: Date.now() - 3_600_000 });
    expect(await sent(deviceAt, typed)).toMatchObject({
      status: 422,
      body: { errors: [{ field: 'deviceAt', value: deviceAt }] },
    });
    expect((await sent(Date.now() + 60_000, typed)).status).toBe(200);
  });

  it('that is behind moves no time, and is kept beside the time of arrival', async () => {
    const [deviceAt, happenedAt] = [Date.now() - 600_000, Date.now() - 3_600_000];
    expect((await sent(deviceAt, weight(70, { happenedAt }))).status).toBe(200);
    const [kept] = await entriesOf();
    expect(kept).toMatchObject({ deviceAt, happenedAt });
    expect(kept.receivedAt).toBeGreaterThan(deviceAt);
  });
});

describe('an entry for the wrong patient', () => {
  const retract = (target: string, enteredAs: string) =>
    draft('retracted', { target, reason: 'wrong patient', enteredAs }, { patientId });

  it('is taken back here and linked to what was entered for the right one', async () => {
    const wrong = weight(17);
    await send(nurse, 'kestrel', wrong);
    bed += 1;
    const neighbour = await admitted(charge, 'kestrel', String(bed));
    const right = draft('weight', { weightKg: 17, cavity: 'empty' }, { patientId: neighbour });
    await send(nurse, 'kestrel', right);
    expect((await send(nurse, 'kestrel', retract(wrong.id, right.id))).status).toBe(200);
    expect((await entriesOf())[0]).toMatchObject({ kind: 'retracted', payload: { enteredAs: right.id } });
  });

  it('is not linked to nothing, to the same patient, or to somebody of another ward', async () => {
    const wrong = weight(17);
    const own = weight(71);
    await send(nurse, 'kestrel', wrong, own);
    const merlin = await hospital.signedIn('merlin-charge');
    const elsewhere = draft(
      'weight',
      { weightKg: 17, cavity: 'empty' },
      { patientId: await admitted(merlin, 'merlin', '1') },
    );
    expect((await send(merlin, 'merlin', elsewhere)).status).toBe(200);
    for (const link of [randomUUID(), own.id, elsewhere.id]) {
      expect(await send(nurse, 'kestrel', retract(wrong.id, link)), link).toMatchObject({
        status: 422,
        body: { code: 'refused', errors: [{ field: 'entries.0.payload.enteredAs', value: link }] },
      });
    }
    expect((await entriesOf()).some(({ kind }: Draft) => kind === 'retracted')).toBe(false);
  });
});

describe('the list of entries', () => {
  it('comes in pages that join without a gap or a repeat, also while more is written', async () => {
    for (let kg = 61; kg <= 70; kg += 1) await send(nurse, 'kestrel', weight(kg));
    const seen: string[] = [];
    let next = `/api/patients/${patientId}/entries?limit=4`;
    for (;;) {
      const { body } = await nurse.get(next);
      seen.push(
        ...body.entries.map(({ kind, payload }: Draft<'weight'>) => (kind === 'weight' ? payload.weightKg : kind)),
      );
      if (body.nextCursor === null) break;
      next = `/api/patients/${patientId}/entries?limit=4&cursor=${body.nextCursor}`;
      await send(nurse, 'kestrel', weight(99));
    }
    expect(seen).toEqual([70, 69, 68, 67, 66, 65, 64, 63, 62, 61, 'admitted']);
  });

  it('refuses a cursor that it has not given, and a page without end', async () => {
    for (const query of [
      'cursor=xyz',
      'cursor=eyJzZXF1ZW5jZSI6IngifQ',
      'limit=0',
      'limit=201',
      'limit=two',
      'page=2',
    ]) {
      const answer = await nurse.get(`/api/patients/${patientId}/entries?${query}`);
      expect(answer, query).toMatchObject({ status: 400, body: { code: 'invalid' } });
      expect(answer.body.errors[0].field, query).toBe(query.split('=')[0]);
    }
  });
});
