import { randomUUID } from 'node:crypto';
import { HOUR_MS, type Payloads } from '@slackwater/domain';
import { NO_LIMITS } from '@slackwater/domain/testing/no-limits';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { admitted, type Browser, draft, type Hospital, identity, openHospital, send } from './hospital.ts';

let hospital: Hospital;
let nurse: Browser;
let charge: Browser;
let physician: Browser;
beforeAll(async () => {
  hospital = await openHospital();
  nurse = await hospital.signedIn('nurse');
  charge = await hospital.signedIn('charge');
  physician = await hospital.signedIn('physician');
});
afterAll(() => hospital.close());

const refusals = (answer: { status: number; body: { errors?: { code: string; field: string }[] } }) =>
  answer.body.errors?.map(({ code, field }) => [code, field]);

const item = (solutionId: string, dwell: Payloads['prescribed']['items'][number]['dwell']) => ({
  id: 'a',
  solutionId,
  fillMl: 2000,
  additives: [],
  dwell,
  windowMinutes: 0,
  condition: null,
});

const prescribed = (patientId: string, one: ReturnType<typeof item>) =>
  draft(
    'prescribed',
    { items: [one], limits: { ...NO_LIMITS, systolicLowMmHg: 100 }, acute: false, note: null, reviewBy: null },
    { patientId },
  );

const prepared = (patientId: string, solutionId: string, revisionId: string, visitId: string) =>
  draft(
    'prepare',
    {
      purpose: 'fillOnly',
      identifiers: ['name', 'dateOfBirth'],
      bag: { solutionId, labelledMl: 2000, expiresOn: null, lot: null, read: 'typed' },
      revisionId,
      itemId: 'a',
      orderId: null,
      bagChecks: { noLeak: true, clear: true, warmed: true, sealWhole: true, mixed: null },
      override: null,
    },
    { patientId, visitId },
  );

describe('before a strong bag', () => {
  it('the blood pressure is asked for; somebody who was called settles it, a nurse’s own word does not', async () => {
    const patientId = await admitted(charge, 'kestrel', '1');
    const revision = prescribed(patientId, item('glucose-3.86', { by: 'length', dwellMinutes: 240 }));
    expect((await send(physician, 'kestrel', revision)).status).toBe(200);
    const visitId = randomUUID();
    const prepare = () => prepared(patientId, 'glucose-3.86', revision.id, visitId);
    const bag = 'entries.0.payload.bag.solutionId';
    expect(refusals(await send(nurse, 'kestrel', prepare()))).toEqual([['pressure-too-old', bag]]);

    const low = { systolicMmHg: 96, diastolicMmHg: 58, position: null };
    await send(nurse, 'kestrel', draft('bloodPressure', low, { patientId }));
    const answer = await send(nurse, 'kestrel', prepare());
    expect(answer.status).toBe(422);
    expect(refusals(answer)).toEqual([['pressure-too-low', bag]]);
    expect(answer.text).toContain("The systolic pressure is 96 mmHg; the patient's limit is 100 mmHg.");

    const called = (change: Partial<Payloads['calledFirst']>) =>
      draft(
        'calledFirst',
        { about: 'pressureTooLow', by: 'told', whom: 'Dr Invented', words: 'go on, sit her up', ...change },
        { patientId, visitId },
      );
    const own = called({ by: 'override', whom: null });
    expect(refusals(await send(nurse, 'kestrel', own))).toEqual([['pressure-role', 'entries.0.payload.by']]);
    const late = called({ by: 'afterwards', whom: null });
    expect(refusals(await send(nurse, 'kestrel', late))).toEqual([['not-afterwards', 'entries.0.payload.by']]);
    expect(refusals(await send(nurse, 'kestrel', called({ whom: null })))).toEqual([
      ['missing', 'entries.0.payload.whom'],
    ]);
    expect((await send(nurse, 'kestrel', called({}), prepare())).status).toBe(200);
  });
});

describe('with diabetes', () => {
  it('no bag is prepared without a glucose of late, where the ward has set so', async () => {
    const manager = await hospital.signedIn('manager');
    const changes = { version: 2, changes: { glucoseBlockMinutes: 60 } };
    expect((await send(manager, 'kestrel', draft('settingsChanged', changes, { patientId: null }))).status).toBe(200);
    const patientId = await admitted(charge, 'kestrel', '2');
    const revision = prescribed(patientId, item('glucose-1.36', { by: 'length', dwellMinutes: 240 }));
    await send(physician, 'kestrel', revision);
    const visitId = randomUUID();
    const prepare = () => prepared(patientId, 'glucose-1.36', revision.id, visitId);
    const said = { about: 'diabetes', present: true, note: null } as const;
    expect((await send(charge, 'kestrel', draft('caution', said, { patientId }))).status).toBe(200);
    expect(refusals(await send(nurse, 'kestrel', prepare()))).toEqual([['glucose-first', 'entries.0.payload.bag']]);
    const glucose = draft('glucose', { glucoseMmolPerL: 7.2, meter: 'other' }, { patientId });
    expect((await send(nurse, 'kestrel', glucose, prepare())).status).toBe(200);
  });
});

describe('icodextrin', () => {
  it('inside: another meter is refused, a glucose-specific one is not (product information)', async () => {
    const patient = identity('Fennel');
    const patientId = patient.id;
    const filledAt = Date.now() - 4 * HOUR_MS;
    const inside = { cavity: 'holding', solutionId: 'icodextrin-7.5', filledMl: 2000, fillEndedAt: filledAt } as const;
    const admission = draft('admitted', { bed: '3', inside, dialysis: 'chronic' }, { patientId });
    const body = { identity: patient, wardId: 'kestrel', deviceAt: Date.now(), admission };
    expect((await charge.post('/api/patients', body)).status).toBe(201);
    const glucose = (meter: Payloads['glucose']['meter']) =>
      send(nurse, 'kestrel', draft('glucose', { glucoseMmolPerL: 9, meter }, { patientId }));
    expect(refusals(await glucose('other'))).toEqual([['meter-falsely-high', 'entries.0.payload.meter']]);
    expect((await glucose('glucoseSpecific')).status).toBe(200);
  });

  it('in rapid cycles is not prescribed (product information; from memory)', async () => {
    const patientId = await admitted(charge, 'kestrel', '4');
    const cycle = { by: 'cycle', fillMinutes: 10, dwellMinutes: 30, drainMinutes: 20 } as const;
    const answer = await send(physician, 'kestrel', prescribed(patientId, item('icodextrin-7.5', cycle)));
    expect(answer.status).toBe(422);
    expect(refusals(answer)?.map(([code]) => code)).toContain('icodextrin-in-cycles');
  });
});
