// What a manager must be able to find again: who looked, who went on against a stop, who changed what a ward decides.
import { randomUUID } from 'node:crypto';
import type { AuditEvent } from '@slackwater/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { admitted, type Browser, DRAIN_ONLY, draft, type Hospital, openHospital, PASSWORD, send } from './hospital.ts';

let hospital: Hospital;
let manager: Browser;
let nurse: Browser;
let charge: Browser;
let patientId: string;
let hospitalNumber: string;
beforeAll(async () => {
  hospital = await openHospital();
  manager = await hospital.signedIn('manager');
  nurse = await hospital.signedIn('nurse');
  charge = await hospital.signedIn('charge');
  patientId = await admitted(charge, 'kestrel', '1');
  await admitted(charge, 'kestrel', '2');
  hospitalNumber = (await nurse.get(`/api/patients/${patientId}/bedside`)).body.patient.hospitalNumber;
});
afterAll(() => hospital.close());

const find = async (query: Record<string, string | number>): Promise<readonly AuditEvent[]> => {
  const answer = await manager.get(
    `/api/audit?${new URLSearchParams(Object.entries(query).map(([k, v]) => [k, String(v)]))}`,
  );
  expect(answer.status, answer.text).toBe(200);
  return answer.body.events;
};
const kinds = (events: readonly AuditEvent[]) => new Set(events.map(({ what }) => what));

const wentOn = (entry: { reason: string; physician: string | null } | null) =>
  draft('prepare', { ...DRAIN_ONLY, override: entry }, { patientId, visitId: randomUUID() });

describe('the audit', () => {
  it('is searched by person, patient, ward, kind and time, and filters hold together', async () => {
    const ofPatient = await find({ hospitalNumber });
    expect(ofPatient.length).toBeGreaterThan(1);
    for (const event of ofPatient) expect(event).toMatchObject({ patientId, hospitalNumber });
    expect(await find({ patientId })).toEqual(ofPatient);

    const reads = await find({ accountId: hospital.accounts.nurse!, kind: 'readPatient', wardId: 'kestrel' });
    expect(reads).toMatchObject([{ what: 'readPatient', patientId, accountName: 'Name of nurse', wardId: 'kestrel' }]);
    expect(await find({ accountId: hospital.accounts.nurse!, wardId: 'merlin' })).toEqual([]);

    const { at } = reads[0]!;
    expect(await find({ kind: 'readPatient', accountId: hospital.accounts.nurse!, from: at, to: at + 1 })).toEqual(
      reads,
    );
    expect(await find({ kind: 'readPatient', accountId: hospital.accounts.nurse!, to: at })).toEqual([]);
    expect(await find({ kind: 'readPatient', accountId: hospital.accounts.nurse!, from: at + 1 })).toEqual([]);
  });

  it('gives instants in whole milliseconds, and pages that join without a gap or a repeat', async () => {
    const whole = await find({ to: Date.now() + 60_000, kind: 'signedIn', limit: 200 });
    expect(whole.filter(({ at }) => !Number.isInteger(at))).toEqual([]);
    const paged: AuditEvent[] = [];
    let cursor: string | null = '';
    while (cursor !== null) {
      const { body }: { body: { events: AuditEvent[]; nextCursor: string | null } } = await manager.get(
        `/api/audit?kind=signedIn&limit=1${cursor && `&cursor=${cursor}`}`,
      );
      paged.push(...body.events);
      cursor = body.nextCursor;
    }
    expect(paged).toEqual(whole);
    expect(paged.length).toBeGreaterThan(2);
  });

  it('shows who tried to sign in and failed', async () => {
    await hospital.browser().post('/api/sign-in', { login: 'physician', password: `not ${PASSWORD}` });
    expect(await find({ kind: 'signInFailed' })).toMatchObject([
      { accountName: 'Name of physician', address: '127.0.0.1' },
    ]);
  });

  it('shows who went on against a stop, with the entry that says why, and nobody who did not', async () => {
    const stopped = wentOn({ reason: 'port was checked by two', physician: null });
    expect((await send(charge, 'kestrel', stopped)).status).toBe(200);
    expect(await find({ kind: 'overrode' })).toMatchObject([
      {
        accountName: 'Name of charge',
        hospitalNumber,
        wardId: 'kestrel',
        detail: { entry: stopped.id, step: 'prepare' },
      },
    ]);
    expect((await send(charge, 'kestrel', stopped)).status).toBe(200);
    expect(await find({ kind: 'overrode' })).toHaveLength(1);
    const { rows } = await hospital.pool.query('SELECT detail::text AS words FROM audit');
    expect(rows.filter(({ words }) => words?.includes('port was checked'))).toEqual([]);
  });

  it('shows changes of settings and of products, which stand in the record too', async () => {
    const change = draft('settingsChanged', { version: 2, changes: { residualMl: 150 } }, { patientId: null });
    expect((await send(manager, 'kestrel', change)).status).toBe(200);
    expect(await find({ kind: 'changedSettings', wardId: 'kestrel' })).toMatchObject([
      { accountName: 'Name of manager', patientId: null, detail: { entry: change.id } },
    ]);
    const late = draft('settingsChanged', { version: 2, changes: { residualMl: 160 } }, { patientId: null });
    expect((await send(manager, 'kestrel', late)).status).toBe(409);
    expect(await find({ kind: 'changedSettings' })).toHaveLength(1);
  });

  it('refuses what it cannot look for, with field and range', async () => {
    for (const [query, field] of [
      ['hospitalNumber=nobody', 'hospitalNumber'],
      ['kind=guessed', 'kind'],
      ['from=1.5', 'from'],
      ['to=', 'to'],
      ['wardId=Not%20A%20Ward', 'wardId'],
      ['cursor=abc', 'cursor'],
    ]) {
      const answer = await manager.get(`/api/audit?${query}`);
      expect(answer.status, query).toBe(400);
      expect(answer.body.errors[0], query).toMatchObject({ field });
    }
  });

  it('is itself looked at in sight, and by managers alone', async () => {
    expect(kinds(await find({ accountId: hospital.accounts.manager! }))).toContain('readAudit');
    expect((await charge.get('/api/audit')).status).toBe(403);
  });
});
