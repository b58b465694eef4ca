import { randomUUID } from 'node:crypto';
import { type BedsideState, type Draft, fluidToTell, HOUR_MS, MINUTE_MS, type OrderContent } from '@slackwater/domain';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { type Browser, boardAt, draft, type Hospital, openHospital, send } from './hospital.ts';

// Theatre and imaging, and leaving with fluid inside: the rules of the ward (common practice), asked through the API.

let hospital: Hospital;
let nurse: Browser;
let charge: Browser;
let physician: Browser;
let merlin: Browser;
let patientId: string;
let bed = 0;

beforeAll(async () => {
  hospital = await openHospital({ beds: 20 });
  nurse = await hospital.signedIn('nurse');
  charge = await hospital.signedIn('charge');
  physician = await hospital.signedIn('physician');
  merlin = await hospital.signedIn('merlin-charge');
});
afterAll(() => hospital.close());
beforeEach(async () => {
  bed += 1;
  patientId = await admittedHolding(2000);
});

/** 2,000 mL of 2.27 % glucose since two hours, or of a volume that nobody knows. */
async function admittedHolding(filledMl: number | null): Promise<string> {
  const id = randomUUID();
  const inside = {
    cavity: 'holding',
    solutionId: 'glucose-2.27',
    filledMl,
    fillEndedAt: Date.now() - 2 * HOUR_MS,
  } as const;
  const identity = {
    id,
    family: 'Fennel',
    given: 'Imke',
    dateOfBirth: '1960-05-17',
    gender: 'female',
    hospitalNumber: `AP ${id.slice(0, 8)}`,
    allergy: null,
    isolation: null,
    cautions: [],
  };
  const admission = draft('admitted', { bed: String(bed), inside, dialysis: 'chronic' }, { patientId: id });
  const answer = await charge.post('/api/patients', { identity, wardId: 'kestrel', deviceAt: Date.now(), admission });
  expect(answer.status).toBe(201);
  return id;
}

const stateFor = async (browser: Browser): Promise<BedsideState> =>
  (await browser.get(`/api/patients/${patientId}/bedside`)).body.state;

const told = async (toWhom = 'Nadia Marsh') => ({ toWhom, said: fluidToTell(await stateFor(charge))! });

const rowOn = async (browser: Browser, wardId: string) => {
  const { body } = await browser.get(`/api/wards/${wardId}/board`);
  return body.rows.find((row: { patient: { id: string } }) => row.patient.id === patientId);
};

describe('theatre or imaging', () => {
  const order = (minutes: { drainBy: number; leavesAt: number; backAt: number }): Draft<'ordered'> => {
    const at = (of: number) => Date.now() + of * MINUTE_MS;
    const content: OrderContent = {
      what: 'drainAndStayEmpty',
      drainBy: at(minutes.drainBy),
      emptyUntil: at(minutes.backAt),
      away: { where: 'imaging', why: 'catheter tip', leavesAt: at(minutes.leavesAt), backAt: at(minutes.backAt) },
    };
    return draft('ordered', { content, note: null, telephone: null }, { patientId }) as Draft<'ordered'>;
  };

  it('is one order: the drain falls due by its time, and the board says why', async () => {
    const ordered = order({ drainBy: 30, leavesAt: 60, backAt: 150 });
    const answer = await send(physician, 'kestrel', ordered);
    expect(answer.status).toBe(200);
    const { content } = ordered.payload;
    if (content.what !== 'drainAndStayEmpty') throw new Error('another order');
    expect(await stateFor(nurse)).toMatchObject({
      due: { what: 'drain', dueAt: content.drainBy, rule: 'order' },
      orders: [{ content: { away: { where: 'imaging' } } }],
    });
    await boardAt(nurse, 'kestrel', answer.body.position);
    expect(await rowOn(nurse, 'kestrel')).toMatchObject({
      stayEmpty: { drainBy: content.drainBy, until: content.emptyUntil, away: { where: 'imaging' } },
    });
    const wall = await (await hospital.signedIn('wall')).get('/api/wards/kestrel/wall');
    expect(wall.status).toBe(200);
    expect(wall.text).toContain('"stayEmpty"');
    expect(wall.text).not.toContain('imaging');
  });

  it.each([
    ['drained after leaving', { drainBy: 61, leavesAt: 60, backAt: 150 }, 'entries.0.payload.content.drainBy'],
    ['back before leaving', { drainBy: 30, leavesAt: 60, backAt: 50 }, 'entries.0.payload.content.away.backAt'],
    ['of the past', { drainBy: -10, leavesAt: 60, backAt: 150 }, 'entries.0.payload.content.drainBy'],
    ['that left already', { drainBy: -20, leavesAt: -10, backAt: 150 }, 'entries.0.payload.content.away.leavesAt'],
  ])('%s is refused with field, value and what is allowed', async (_, minutes, field) => {
    const answer = await send(physician, 'kestrel', order(minutes));
    expect(answer.status).toBe(422);
    const problem = answer.body.errors.find((one: { field: string }) => one.field === field);
    expect(problem).toMatchObject({ field, value: expect.any(Number), allowed: expect.stringMatching(/\w/) });
    expect((await stateFor(nurse)).orders).toEqual([]);
  });

  it('leaves with the order or not at all: of a batch with a bad time nothing is written', async () => {
    const ordered = order({ drainBy: 30, leavesAt: 60, backAt: 150 });
    const telephone = { physician: 'Dr Imre Solberg', readBack: true } as const;
    const byTelephone: Draft = { ...ordered, payload: { ...ordered.payload, telephone } };
    const left = draft('leftWard', { where: 'imaging', backAbout: Date.now() - HOUR_MS }, { patientId });
    expect((await send(nurse, 'kestrel', byTelephone, left)).status).toBe(422);
    expect(await stateFor(nurse)).toMatchObject({ orders: [], stay: { offWard: null } });
  });

  it('is a physician’s, or by telephone with read-back', async () => {
    expect((await send(nurse, 'kestrel', order({ drainBy: 30, leavesAt: 60, backAt: 150 }))).status).toBe(403);
  });

  it('with fluid inside, although ordered drained, takes a reason that the record keeps and a manager finds', async () => {
    await send(physician, 'kestrel', order({ drainBy: 30, leavesAt: 60, backAt: 150 }));
    const left = draft('leftWard', { where: 'imaging', backAbout: null }, { patientId });
    expect(await send(nurse, 'kestrel', left)).toMatchObject({
      status: 422,
      body: { errors: [{ code: 'leaves-undrained', field: 'entries.0.payload.undrained', value: null }] },
    });
    const undrained = { reason: 'theatre called early', physician: 'Dr Invented' };
    const answer = await send(nurse, 'kestrel', { ...left, payload: { ...left.payload, undrained } } as Draft);
    expect(answer.status).toBe(200);
    const { body } = await nurse.get(`/api/patients/${patientId}/entries?limit=50`);
    expect(body.entries.find(({ id }: { id: string }) => id === left.id).payload).toMatchObject({ undrained });
    const audit = await (await hospital.signedIn('manager')).get(`/api/audit?kind=overrode&patientId=${patientId}`);
    expect(audit.body.events).toMatchObject([{ detail: { entry: left.id, step: 'leftWard' } }]);
  });

  it('coming back ends the order in the same touch', async () => {
    const ordered = order({ drainBy: 30, leavesAt: 60, backAt: 150 });
    await send(physician, 'kestrel', ordered);
    const left = { where: 'imaging', backAbout: null, undrained: { reason: 'called early', physician: null } };
    await send(nurse, 'kestrel', draft('leftWard', left, { patientId }));
    const back = draft('returned', {}, { patientId });
    const ended = draft('orderEnded', { orderId: ordered.id, why: 'done', reason: 'Back on the ward' }, { patientId });
    expect((await send(nurse, 'kestrel', back, ended)).status).toBe(200);
    expect(await stateFor(nurse)).toMatchObject({ orders: [], stay: { offWard: null } });
  });
});

describe('a patient who leaves with fluid inside', () => {
  const discharged = (fluid?: Awaited<ReturnType<typeof told>>) =>
    draft('discharged', { to: 'home', handover: null, ...(fluid && { fluid }) }, { patientId });

  it('is not discharged until somebody with a name was told, and the record keeps what was told', async () => {
    const refused = await send(charge, 'kestrel', discharged());
    expect(refused).toMatchObject({
      status: 422,
      body: { errors: [{ code: 'fluid-not-handed-over', field: 'entries.0.payload.fluid' }] },
    });
    const fluid = await told();
    expect((await send(charge, 'kestrel', discharged({ ...fluid, toWhom: ' ' }))).status).toBe(400);
    expect((await send(charge, 'kestrel', discharged(fluid))).status).toBe(200);
    expect(await stateFor(nurse)).toMatchObject({
      stay: null,
      fluidHandover: {
        to: { place: 'home' },
        toWhom: 'Nadia Marsh',
        said: { fills: [{ filledMl: 2000, solutionId: 'glucose-2.27' }] },
      },
    });
  });

  it('of a volume that nobody knows is told as not known; a zero in its place is refused', async () => {
    bed += 1;
    patientId = await admittedHolding(null);
    const fluid = await told();
    expect(fluid.said.fills).toMatchObject([{ filledMl: null }]);
    expect(fluid.said.leftMl).toEqual({ flow: null, book: null });
    const asZero = { ...fluid, said: { ...fluid.said, fills: [{ ...fluid.said.fills[0]!, filledMl: 0 }] } };
    expect(await send(charge, 'kestrel', discharged(asZero))).toMatchObject({
      status: 422,
      body: { errors: [{ code: 'fluid-changed' }] },
    });
    expect((await send(charge, 'kestrel', discharged(fluid))).status).toBe(200);
  });

  it('is seen with it on the ward that takes over, by staff and not on the wall', async () => {
    const happenedAt = Date.now();
    const fluid = await told();
    const out = draft('transferredOut', { toWardId: 'merlin', fluid }, { patientId, happenedAt });
    const into = draft('transferredIn', { fromWardId: 'kestrel', bed: String(bed) }, { patientId, happenedAt });
    expect((await send(charge, 'kestrel', out, into)).status).toBe(200);
    await expect
      .poll(() => rowOn(merlin, 'merlin'), { timeout: 20_000 })
      .toMatchObject({ fluidHandover: { at: happenedAt, toWhom: 'Nadia Marsh' }, insideStrength: '2.5 %' });
    expect(await stateFor(merlin)).toMatchObject({
      stay: { wardId: 'merlin' },
      fluidHandover: { to: { ward: 'merlin' }, said: { fills: [{ filledMl: 2000 }] } },
    });
  });
});
