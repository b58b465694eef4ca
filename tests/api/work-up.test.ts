import { randomUUID } from 'node:crypto';
import { type BedsideState, type Draft, dateAt, HOUR_MS, type Payloads } from '@slackwater/domain';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { admitted, type Browser, DRAIN_ONLY, draft, type Hospital, openHospital, send } from './hospital.ts';

let hospital: Hospital;
let nurse: Browser;
let charge: Browser;
let patientId: string;
let bed = 0;

beforeAll(async () => {
  hospital = await openHospital({ beds: 12 });
  nurse = await hospital.signedIn('nurse');
  charge = await hospital.signedIn('charge');
});
beforeEach(async () => {
  bed += 1;
  patientId = await admitted(charge, 'kestrel', String(bed));
});
afterAll(() => hospital.close());

const bedside = async (): Promise<BedsideState> => (await nurse.get(`/api/patients/${patientId}/bedside`)).body.state;

/** A drain that looks as it is said to; each step follows the one before. */
async function drained(
  appearance: Payloads['appearance']['appearance'],
): Promise<{ visitId: string; drainId: string }> {
  const visitId = randomUUID();
  const about = { patientId, visitId };
  const prepare = draft('prepare', DRAIN_ONLY, { ...about, after: (await bedside()).head });
  const connect = draft('connect', {}, { ...about, after: prepare.id });
  const start = draft('startDrain', {}, { ...about, after: connect.id });
  const look = draft('appearance', { drain: 1, appearance, note: null }, about);
  const answer = await send(nurse, 'kestrel', prepare, connect, start, look);
  expect(answer).toMatchObject({ status: 200 });
  return { visitId, drainId: start.id };
}

const sample = (workUpId: string, drainId: string | null): Draft =>
  draft(
    'sampleTaken',
    {
      workUpId,
      tests: ['cellCount', 'culture'],
      drainId,
      dwellMinutes: null,
      bottles: 2,
      beforeAntibiotic: true,
      bagKeptWhere: 'sluice',
      note: null,
    },
    { patientId },
  );

const result = (workUpId: string, whiteCells: Payloads['resultReported']['whiteCells']): Draft =>
  draft(
    'resultReported',
    { workUpId, sampleId: null, whiteCells, polymorphPercent: 80, gramStain: null, culture: null, note: null },
    { patientId },
  );

describe('a suspected peritonitis', () => {
  it('is opened by the tool with the cloudy look, and nobody else opens one', async () => {
    const { drainId } = await drained(['cloudy']);
    const { workUps, alerts } = await bedside();
    expect(workUps).toMatchObject([{ drainId, appearance: ['cloudy'], closed: null, samples: [] }]);
    expect(alerts.map(({ kind }) => kind)).toContain('effluentCloudy');
    const payload = { drainId, drainStartedAt: Date.now(), appearance: ['cloudy'], dwellMinutes: null };
    const forged = {
      ...draft('weight', { weightKg: 70, cavity: 'empty' }, { patientId }),
      kind: 'workUpOpened',
      payload,
    };
    expect((await send(nurse, 'kestrel', forged as unknown as Draft)).status).toBe(400);
  });

  it('is not opened by a clear one', async () => {
    await drained(['clear']);
    expect((await bedside()).workUps).toEqual([]);
  });

  it('keeps its bag until a sample of it was taken', async () => {
    const { visitId, drainId } = await drained(['cloudy']);
    const discard = () => draft('bagFate', { drain: 1, fate: 'discarded' }, { patientId, visitId });
    expect(await send(nurse, 'kestrel', discard())).toMatchObject({
      status: 422,
      body: { errors: [{ code: 'keep-cloudy-bag' }] },
    });
    const [workUp] = (await bedside()).workUps;
    expect((await send(nurse, 'kestrel', sample(workUp!.id, drainId))).status).toBe(200);
    expect((await send(nurse, 'kestrel', discard())).status).toBe(200);
  });

  it('takes a count with its unit, refuses one without, and one that cannot be', async () => {
    await drained(['cloudy']);
    const [workUp] = (await bedside()).workUps;
    const { id } = workUp!;
    expect((await send(nurse, 'kestrel', result(id, { value: 0.48, unit: '10*9/L' }))).status).toBe(200);
    expect((await bedside()).workUps[0]?.results).toMatchObject([{ whiteCells: { value: 0.48, unit: '10*9/L' } }]);
    const without = result(id, { value: 480 } as unknown as { value: number; unit: '/uL' });
    expect((await send(nurse, 'kestrel', without)).status).toBe(400);
    const unlikely = await send(nurse, 'kestrel', result(id, { value: 480_000, unit: '10*9/L' }));
    expect(unlikely).toMatchObject({ status: 422, body: { errors: [{ code: 'out-of-range' }] } });
  });

  it('keeps what antibiotic was begun, since which day, and refuses a day ahead, one of long ago and one that is none', async () => {
    await drained(['cloudy']);
    const [workUp] = (await bedside()).workUps;
    const at = Date.now();
    const day = (days: number) => dateAt(at + days * 24 * HOUR_MS, 'Europe/London');
    const started = (startedOn: string) =>
      send(
        nurse,
        'kestrel',
        draft(
          'antibioticStarted',
          { workUpId: workUp!.id, what: 'vancomycin', startedOn, answers: 'notKnown', note: null },
          { patientId, happenedAt: at },
        ),
      );
    expect((await started(day(-1))).status).toBe(200);
    expect((await bedside()).workUps[0]?.antibiotics).toMatchObject([
      { what: 'vancomycin', startedOn: day(-1), answers: 'notKnown' },
    ]);
    for (const wrong of [day(2), day(-120)]) {
      const answer = await started(wrong);
      expect(answer).toMatchObject({ status: 422, body: { errors: [{ code: 'dates-out-of-order', value: wrong }] } });
      expect(answer.body.errors[0].field).toBe('entries.0.payload.startedOn');
    }
    expect((await started('2026-02-30')).status).toBe(400);
  });

  it('is concluded by a charge nurse with a reason and not by a nurse; taken back, it is open again', async () => {
    await drained(['cloudy']);
    const [workUp] = (await bedside()).workUps;
    const conclude = () =>
      draft(
        'workUpClosed',
        { workUpId: workUp!.id, conclusion: 'notPeritonitis', reason: 'Dr Solberg: few cells' },
        { patientId },
      );
    expect((await send(nurse, 'kestrel', conclude())).status).toBe(403);
    const concluded = conclude();
    expect((await send(charge, 'kestrel', concluded)).status).toBe(200);
    expect((await bedside()).workUps[0]?.closed).toMatchObject({ conclusion: 'notPeritonitis' });
    expect((await send(nurse, 'kestrel', result(workUp!.id, { value: 5, unit: '/uL' }))).status).toBe(422);
    const back = draft(
      'retracted',
      { target: concluded.id, reason: 'the wrong patient', enteredAs: null },
      { patientId },
    );
    expect((await send(charge, 'kestrel', back)).status).toBe(200);
    expect((await bedside()).workUps[0]?.closed).toBeNull();
  });
});

it('who was told hangs on the finding, and that nobody was reached is kept', async () => {
  const { drainId } = await drained(['milky']);
  const told = {
    whom: 'Dr Imre Solberg',
    toldAt: Date.now() - 60_000,
    outcome: null,
    about: 'milky',
    finding: { finding: 'milky', cause: drainId },
    notReached: true,
  } as const;
  expect((await send(nurse, 'kestrel', draft('told', told, { patientId }))).status).toBe(200);
  expect((await bedside()).told).toMatchObject([{ whom: 'Dr Imre Solberg', notReached: true, finding: told.finding }]);
});

it('breathlessness between exchanges is an alert of high rank', async () => {
  const comfort = { pain: null, phase: null, cramp: false, breathless: true, leakAtExit: false, swelling: false };
  expect((await send(nurse, 'kestrel', draft('symptoms', { comfort, note: null }, { patientId }))).status).toBe(200);
  expect((await bedside()).alerts).toMatchObject([{ kind: 'breathless', rank: 'high' }]);
});
