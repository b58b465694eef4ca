// What the alert centre reads beside the board, over the real API.
import { HOUR_MS, MINUTE_MS } from '@slackwater/domain';
import { NO_LIMITS } from '@slackwater/domain/testing/no-limits';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { hookReceiver, hookTo, KEY, THIS_MACHINE } from './hook-receiver.ts';
import { type Browser, draft, type Hospital, identity, openHospital, send } from './hospital.ts';

let hospital: Hospital;
let nurse: Browser;
let receiver: Awaited<ReturnType<typeof hookReceiver>>;
const now = Date.now();
/** Two patients whose drain of four hours is far overdue; their prescription raises one high alert for each. */
const patients: string[] = [];

beforeAll(async () => {
  receiver = await hookReceiver();
  const hooks = { hooks: [hookTo(receiver.url, ['high'])], inside: THIS_MACHINE };
  hospital = await openHospital({ hooks });
  nurse = await hospital.signedIn('nurse');
  const [charge, physician] = [await hospital.signedIn('charge'), await hospital.signedIn('physician')];
  for (const bed of ['1', '2']) {
    const patient = identity(`Overdue${bed}`);
    patients.push(patient.id);
    const inside = {
      cavity: 'holding',
      solutionId: 'glucose-2.27',
      filledMl: 2000,
      fillEndedAt: now - 5 * HOUR_MS,
    } as const;
    const admission = draft('admitted', { bed, inside, dialysis: 'chronic' }, { patientId: patient.id });
    await charge.post('/api/patients', { identity: patient, wardId: 'kestrel', deviceAt: Date.now(), admission });
    const item = {
      id: 'a',
      solutionId: 'glucose-2.27',
      fillMl: 2000,
      additives: [],
      dwell: { by: 'length', dwellMinutes: 240 },
      windowMinutes: 30,
      condition: null,
    } as const;
    const prescribed = draft(
      'prescribed',
      { items: [item], limits: NO_LIMITS, acute: false, note: null, reviewBy: null },
      { patientId: patient.id },
    );
    const answer = await send(physician, 'kestrel', prescribed);
    if (answer.status !== 200 && answer.status !== 201) throw new Error(answer.text);
  }
}, 60_000);
afterAll(async () => {
  await hospital.close();
  await receiver.close();
});

const alertOf = async (patientId: string): Promise<string> =>
  (await hospital.pool.query('SELECT id FROM alert WHERE patient_id = $1', [patientId])).rows[0].id;

describe('cleared today', () => {
  it('says what ended, how, by whom and why, and under which version of the settings it was raised', async () => {
    const [patientId] = patients as [string];
    const alertId = await alertOf(patientId);
    expect((await nurse.get('/api/wards/kestrel/alerts/cleared')).body).toMatchObject({ alerts: [], more: false });
    const until = Date.now() + 10 * MINUTE_MS;
    await send(nurse, 'kestrel', draft('alertAcknowledged', { alertId, until }, { patientId }));
    const cleared = draft('alertCleared', { alertId, by: 'person', reason: 'entered on paper' }, { patientId });
    expect((await send(nurse, 'kestrel', cleared)).status).toBe(200);
    const { body } = await nurse.get('/api/wards/kestrel/alerts/cleared');
    expect(body.alerts).toEqual([
      expect.objectContaining({
        id: alertId,
        patientId,
        bed: '1',
        patientName: expect.stringContaining('Overdue1, '),
        kind: 'drainOverdue',
        rank: 'high',
        settingsVersion: 1,
        clearedBy: 'person',
        clearedByName: 'Name of nurse',
        reason: 'entered on paper',
      }),
    ]);
    const [alert] = body.alerts;
    expect(alert.acknowledgedAt).toBeGreaterThanOrEqual(alert.raisedAt);
    expect(alert.clearedAt).toBeGreaterThanOrEqual(alert.acknowledgedAt);
    expect(body.from).toBeLessThanOrEqual(alert.clearedAt);
  });
});

describe('measures', () => {
  it('are counted from the alerts of the ward, and no figure stands where there is nothing to count', async () => {
    const { body } = await nurse.get('/api/wards/kestrel/alerts/measures?hours=24');
    expect(body).toMatchObject({
      raised: 2,
      // nobody has a patient in their care: nothing to divide by
      nurseMinutes: 0,
      perNurseTenMinutes: null,
      byRank: { high: { count: 2, of: 2, percent: 100 }, medium: { count: 0, of: 2 }, low: { count: 0, of: 2 } },
      minutesToAcknowledge: { count: 1 },
      neverActedOn: { count: 0, of: 1, percent: 0 },
      noisiest: [{ kind: 'drainOverdue', raised: { count: 2 } }],
    });
    expect(body.to - body.from).toBe(24 * HOUR_MS);
  });

  it('divide by the time in which nurses had patients', async () => {
    const [patientId] = patients as [string];
    const charge = await hospital.signedIn('charge');
    const to = Date.now() + HOUR_MS;
    const accountId = hospital.accounts.nurse!;
    const from = Date.now() - 30 * MINUTE_MS;
    const assigned = draft('assigned', { accountId, name: 'Name of nurse', from, to }, { patientId });
    expect((await send(charge, 'kestrel', assigned)).status).toBe(200);
    const { body } = await nurse.get('/api/wards/kestrel/alerts/measures?hours=1');
    expect(body.nurseMinutes).toBeGreaterThanOrEqual(30);
    expect(body.perNurseTenMinutes).toBeCloseTo(20 / body.nurseMinutes, 6);
  });

  it.each(['0', '745', '1.5', 'day', '-1'])('of %s hours are refused, with the range', async (hours) => {
    const { status, text } = await nurse.get(`/api/wards/kestrel/alerts/measures?hours=${hours}`);
    expect(status).toBe(400);
    expect(text).toMatch(/hours/);
  });
});

describe('hooks', () => {
  it('are seen by a manager with what they took, and without their secret', async () => {
    const manager = await hospital.signedIn('manager');
    // two were raised, one of them was cleared above
    await vi.waitFor(() => expect(receiver.received).toHaveLength(3), { timeout: 20_000, interval: 20 });
    await vi.waitFor(
      async () =>
        expect((await manager.get('/api/hooks')).body).toEqual({
          hooks: [
            {
              url: receiver.url,
              ranks: ['high'],
              lastTakenAt: expect.any(Number),
              takenToday: 3,
              waiting: 0,
              nextTryAt: null,
              lastError: null,
              givenUp: 0,
            },
          ],
        }),
      { timeout: 20_000, interval: 20 },
    );
    expect((await manager.get('/api/hooks')).text).not.toContain(KEY.toString('base64'));
  });
});
