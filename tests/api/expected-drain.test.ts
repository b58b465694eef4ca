import { bagOf, type Draft, expectedDrain, HOUR_MS, MINUTE_MS } from '@slackwater/domain';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Browser, draft, type Hospital, identity, openHospital, send } from './hospital.ts';
import { exchange, prescribed } from './record-ward.ts';

let hospital: Hospital;
let nurse: Browser;
const patient = identity('Bistort');
const patientId = patient.id;
const now = Date.now();
const admittedAt = now - 40 * HOUR_MS;
const DRAINED_ML = 2350;
let of: { patientId: string; revisionId: string };
let head: string | null = null;

beforeAll(async () => {
  hospital = await openHospital();
  nurse = await hospital.signedIn('nurse');
  const charge = await hospital.signedIn('charge');
  const inside = { cavity: 'holding', solutionId: 'glucose-2.27', filledMl: 2000, fillEndedAt: admittedAt } as const;
  const admission = draft('admitted', { bed: '1', inside, dialysis: 'chronic' }, { patientId, happenedAt: admittedAt });
  await charge.post('/api/patients', { identity: patient, wardId: 'kestrel', deviceAt: now, admission });
  const prescription = prescribed(patientId, admittedAt);
  of = { patientId, revisionId: prescription.id };
  await written(await hospital.signedIn('physician'), prescription);
});
afterAll(() => hospital.close());

async function written(browser: Browser, ...entries: Draft[]) {
  const answer = await send(browser, 'kestrel', ...entries);
  if (answer.status !== 200) throw new Error(answer.text);
}

/** An exchange so many hours ago, confirmed empty before its fill, so that the fill is offered. */
function exchanged(hoursAgo: number): Draft[] {
  const startAt = now - hoursAgo * HOUR_MS;
  const steps = exchange(of, startAt, head, { drainedMl: DRAINED_ML });
  head = steps.at(-1)!.id;
  const isEmpty = draft(
    'cavityConfirmedEmpty',
    { reason: 'imaging', note: 'ultrasound' },
    { patientId, happenedAt: startAt + 19 * MINUTE_MS },
  );
  return [...steps.slice(0, 5), isEmpty, ...steps.slice(5)];
}

const learning = async () => (await nurse.get(`/api/patients/${patientId}/drain-learning`)).body;

describe('what the drains of a patient taught', () => {
  it('is nothing for a new patient', async () => {
    const { estimator, passedOver } = await learning();
    expect(estimator.drains).toBe(0);
    expect(passedOver).toEqual([]);
  });

  it('leaves out the drain under way, and takes it once the next fill begins', async () => {
    for (const hoursAgo of [36, 31, 26, 21]) await written(nurse, ...exchanged(hoursAgo));
    expect((await learning()).estimator.drains).toBe(4);

    const fifth = exchanged(16);
    await written(nurse, ...fifth.slice(0, 5));
    expect((await learning()).estimator.drains).toBe(4);
    await written(nurse, ...fifth.slice(5));
    expect((await learning()).estimator.drains).toBe(5);
  });

  it('foresees the next drain near what came so far', async () => {
    const { estimator } = await learning();
    const bag = bagOf({ glucoseGPerL: 22.7, sodiumMmolPerL: 132, icodextrinGPerL: 0 });
    // From the end of a fill to the start of the next drain: 5 h − 26 min.
    const kind = { bag, fillMl: 2000, dwellMinutes: 274 };
    const { value } = expectedDrain(estimator, kind, { residualMl: 200 });
    expect(value).toMatchObject({ from: 5 });
    expect(Math.abs(value!.expectedMl - DRAINED_ML)).toBeLessThan(50);
  });

  it('passes over a cloudy drain and says so', async () => {
    const steps = exchanged(11);
    const [, , started] = steps;
    const cloudy = draft(
      'appearance',
      { drain: 1, appearance: ['cloudy'], note: null },
      { patientId, visitId: started!.visitId!, happenedAt: started!.happenedAt + 5 * MINUTE_MS },
    );
    await written(nurse, ...steps.slice(0, 3), cloudy, ...steps.slice(3));
    const { estimator, passedOver } = await learning();
    expect(estimator.drains).toBe(5);
    expect(passedOver).toEqual([expect.objectContaining({ because: 'appearance' })]);
  });

  it('reads the newest 120 dwells and no more', async () => {
    await hospital.pool.query(
      `INSERT INTO dwell (site_id, id, patient_id, drained_at, complete, imported, content)
      SELECT d.site_id, 'copy ' || n, d.patient_id, now() - n * interval '1 minute', true, false, d.content
      FROM (SELECT * FROM dwell WHERE patient_id = $1 AND complete ORDER BY drained_at LIMIT 1) d,
        generate_series(1, 150) n`,
      [patientId],
    );
    const { estimator, passedOver } = await learning();
    expect(estimator.drains).toBe(120);
    expect(passedOver).toEqual([]);
  });
});
