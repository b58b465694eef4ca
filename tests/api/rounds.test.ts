import { type Draft, HOUR_MS, MINUTE_MS } from '@slackwater/domain';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Browser, draft, type Hospital, identity, openHospital, send } from './hospital.ts';
import { exchange, prescribed } from './record-ward.ts';

let hospital: Hospital;
let nurse: Browser;
let charge: Browser;
let physician: Browser;
const patient = identity('Bistort');
const patientId = patient.id;
const now = Date.now();
const admittedAt = now - 30 * HOUR_MS;

beforeAll(async () => {
  hospital = await openHospital();
  nurse = await hospital.signedIn('nurse');
  charge = await hospital.signedIn('charge');
  physician = await hospital.signedIn('physician');
  const inside = { cavity: 'holding', solutionId: 'glucose-2.27', filledMl: 2000, fillEndedAt: admittedAt } as const;
  const admission = draft('admitted', { bed: '1', inside, dialysis: 'chronic' }, { patientId, happenedAt: admittedAt });
  await charge.post('/api/patients', { identity: patient, wardId: 'kestrel', deviceAt: now, admission });
  const prescription = prescribed(patientId, admittedAt);
  await written(physician, prescription);

  const first = exchange({ patientId, revisionId: prescription.id }, now - 13 * HOUR_MS, null, { drainedMl: 2300 });
  const head = first.at(-1)!.id;
  const second = exchange({ patientId, revisionId: prescription.id }, now - 2 * HOUR_MS, head, {
    drainedMl: 1900,
    itemId: 'b',
  });
  // what came with the patient is only believed once somebody says that the cavity is empty
  const isEmpty = draft(
    'cavityConfirmedEmpty',
    { reason: 'imaging', note: 'ultrasound' },
    { patientId, happenedAt: now - 13 * HOUR_MS + 19 * MINUTE_MS },
  );
  await written(nurse, ...first.slice(0, 5), isEmpty, ...first.slice(5));
  await written(nurse, ...second);
  const at = { patientId, happenedAt: now - HOUR_MS };
  await written(
    nurse,
    draft('weight', { weightKg: 71.2, cavity: 'full' }, at),
    draft('bloodPressure', { systolicMmHg: 128, diastolicMmHg: 76, position: 'sitting' }, at),
    draft('otherFluid', { direction: 'in', route: 'oral', volumeMl: 250, note: null }, at),
    draft('otherFluid', { direction: 'out', route: 'urine', volumeMl: 400, note: null }, at),
  );
});
afterAll(() => hospital.close());

async function written(browser: Browser, ...entries: Draft[]) {
  const answer = await send(browser, 'kestrel', ...entries);
  if (answer.status !== 200) throw new Error(answer.text);
}

describe('rounds', () => {
  it('show each dwell, and each ward day with the dwells that were drained in it', async () => {
    const { body } = await nurse.get(`/api/patients/${patientId}/rounds?days=3`);
    // 2300 mL out − 2000 mL in = 300 mL; 1900 mL out − 2000 mL in = −100 mL; the fill inside counts nowhere
    const closed = body.dwells.filter(({ drainedAt }: { drainedAt: number | null }) => drainedAt !== null);
    expect(closed.map((dwell: { drainMinusFillMl: number }) => dwell.drainMinusFillMl)).toEqual([300, -100]);

    expect(body.days).toHaveLength(3);
    const [drainedFirst, drainedSecond] = [now - 13 * HOUR_MS + 18 * MINUTE_MS, now - 2 * HOUR_MS + 18 * MINUTE_MS];
    for (const { date, balance } of body.days) {
      const isIn = (at: number) => balance.from <= at && at < balance.to;
      expect(balance.removedMl, date).toBe((isIn(drainedFirst) ? 300 : 0) + (isIn(drainedSecond) ? -100 : 0));
      expect(balance.exchanges, date).toBe(Number(isIn(drainedFirst)) + Number(isIn(drainedSecond)));
      expect(balance.missing, date).toEqual([]);
      expect(new Intl.DateTimeFormat('sv-SE', { timeZone: 'Europe/London' }).format(balance.from)).toBe(date);
    }
    // Σ over the days = Σ over the dwells: 300 − 100 mL
    expect(
      body.days.reduce((sum: number, { balance }: { balance: { removedMl: number } }) => sum + balance.removedMl, 0),
    ).toBe(200);
  });

  it('show what was weighed, measured and drunk', async () => {
    const { body } = await nurse.get(`/api/patients/${patientId}/rounds`);
    const at = now - HOUR_MS;
    expect(body.days).toHaveLength(30);
    expect(body.weights).toEqual([{ at, weightKg: 71.2, cavity: 'full' }]);
    expect(body.bloodPressures).toEqual([{ at, systolicMmHg: 128, diastolicMmHg: 76, position: 'sitting' }]);
    expect(body.otherFluids).toHaveLength(2);
    const day = body.days.find(
      ({ balance }: { balance: { from: number; to: number } }) => balance.from <= at && at < balance.to,
    );
    expect(day.balance).toMatchObject({ otherInMl: 250, otherOutMl: 400 });
  });

  it('reach back from one day to a year', async () => {
    for (const days of ['0', '367', '1.5', 'all']) {
      const answer = await nurse.get(`/api/patients/${patientId}/rounds?days=${days}`);
      expect(answer, days).toMatchObject({ status: 400, body: { errors: [{ field: 'days' }] } });
    }
    expect((await nurse.get(`/api/patients/${patientId}/rounds?days=366`)).body.days).toHaveLength(366);
  });
});

describe('prescriptions', () => {
  it('are listed with orders, newest first, and the names of their authors', async () => {
    const revision = prescribed(patientId, now - 30 * MINUTE_MS, 300);
    await written(physician, revision);
    const rinse = { what: 'rinse', solutionId: 'glucose-1.36', volumeMl: 500, rinses: 2 } as const;
    const order = draft(
      'ordered',
      { content: rinse, note: null, telephone: { physician: 'Dr Pia', readBack: true } },
      { patientId, happenedAt: now - 20 * MINUTE_MS },
    );
    await written(nurse, order);
    const { body } = await nurse.get(`/api/patients/${patientId}/prescriptions`);
    expect(body.revisions.map(({ number }: { number: number }) => number)).toEqual([2, 1]);
    expect(body.revisions[0]).toMatchObject({
      id: revision.id,
      prescribedBy: hospital.accounts.physician,
      items: revision.kind === 'prescribed' ? revision.payload.items : [],
    });
    expect(body.orders).toEqual([
      expect.objectContaining({
        id: order.id,
        content: rinse,
        telephone: { physician: 'Dr Pia', readBack: true },
        givenBy: hospital.accounts.nurse,
        endedAt: null,
      }),
    ]);
    expect(body.names).toEqual({
      [hospital.accounts.physician!]: 'Name of physician',
      [hospital.accounts.nurse!]: 'Name of nurse',
    });
  });
});
