// Entries that a broken or a malicious device could send. What is written stands for ever, so each is stopped at the door.
import { randomUUID } from 'node:crypto';
import type { Draft } from '@slackwater/domain';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { admitted, type Browser, DRAIN_ONLY, draft, type Hospital, openHospital, send } from '../api/hospital.ts';

let hospital: Hospital;
let nurse: Browser;
let charge: Browser;
let manager: Browser;
let patientId: string;
beforeAll(async () => {
  hospital = await openHospital();
  nurse = await hospital.signedIn('nurse');
  charge = await hospital.signedIn('charge');
  manager = await hospital.signedIn('manager');
  patientId = await admitted(charge, 'kestrel', '1');
});
afterAll(() => hospital.close());

const weight = (rest: Record<string, unknown> = {}) =>
  draft('weight', { weightKg: 70, cavity: 'empty' }, { patientId, ...rest });
const corrected = (target: string, payload: Record<string, unknown>, rest: { id?: string } = {}) =>
  draft('corrected', { target, reason: 'misread', payload, happenedAt: Date.now() }, { patientId, ...rest });
const settings = (changes: Record<string, number | string>, over: { patientId: string | null } = { patientId: null }) =>
  draft('settingsChanged', { version: 2, changes }, over);

describe('ids', () => {
  // RFC 9562, section 4: UUIDs are read in either case
  it('in upper and in lower case are one and the same', async () => {
    const id = randomUUID();
    const first = await send(nurse, 'kestrel', weight({ id: id.toUpperCase(), patientId: patientId.toUpperCase() }));
    expect(first.status).toBe(200);
    expect(first.body.receipts[0].id).toBe(id);
    const { happenedAt } = first.body.receipts[0];
    const again = await send(nurse, 'kestrel', weight({ id, happenedAt }));
    expect(again.body.receipts).toEqual(first.body.receipts);
  });

  it('in upper case can be followed', async () => {
    const visitId = randomUUID();
    const [first, second] = [randomUUID().toUpperCase(), randomUUID()];
    const prepare = draft('prepare', DRAIN_ONLY, { patientId, id: first, visitId });
    expect((await send(nurse, 'kestrel', prepare)).status).toBe(200);
    const connect = draft('connect', {}, { patientId, id: second, visitId, after: first });
    const answer = await send(nurse, 'kestrel', connect);
    expect(answer.status).toBe(200);
    expect(answer.body.bedside.visit.state).toBe('connected');
  });

  it('twice in one batch are refused', async () => {
    const entry = weight();
    for (const twin of [entry, draft('bowels', { opened: true, note: null }, { patientId, id: entry.id })]) {
      const answer = await send(nurse, 'kestrel', entry, twin);
      expect(answer.status).toBe(400);
      expect(answer.body.errors[0].field).toBe('entries');
    }
  });
});

describe('a correction in the batch of its target', () => {
  it('may itself be corrected there', async () => {
    const entry = weight();
    const once = corrected(entry.id, { weightKg: 71, cavity: 'empty' });
    const twice = corrected(once.id, { weightKg: 72, cavity: 'empty' });
    const answer = await send(nurse, 'kestrel', entry, once, twice);
    expect(answer.status).toBe(200);
    expect(answer.body.bedside.weight.weightKg).toBe(72);
  });

  it('cannot bring in the form of a correction as what was weighed', async () => {
    const entry = weight();
    const once = corrected(entry.id, { weightKg: 71, cavity: 'empty' });
    const poison = corrected(once.id, { target: entry.id, reason: 'x', payload: {}, happenedAt: Date.now() });
    expect((await send(nurse, 'kestrel', entry, once, poison)).status).toBe(400);
  });

  it('cannot be its own target, nor come before it', async () => {
    const id = randomUUID();
    const entry = weight();
    const payload = { weightKg: 71, cavity: 'empty' };
    for (const batch of [[corrected(id, payload, { id })], [corrected(entry.id, payload), entry]] as Draft[][]) {
      const answer = await send(nurse, 'kestrel', ...batch);
      expect(answer.status).toBe(422);
      expect(answer.body.errors[0].code).toBe('unknownTarget');
    }
  });
});

describe('a row of a flow sheet', () => {
  it('is retracted and entered anew, not corrected: nobody could say whether the new content is right', async () => {
    const { hospitalNumber } = (await nurse.get(`/api/patients/${patientId}/bedside`)).body.patient;
    const sheet =
      'ward,hospital_number,drain_start,drain_end,drained_ml,appearance,fill_start,fill_end,filled_ml,solution,note\n' +
      `kestrel,${hospitalNumber},2026-06-01T08:00:00Z,2026-06-01T08:20:00Z,2100,clear,,,,,\n`;
    const imported = await manager.post('/api/wards/kestrel/import', sheet, { 'content-type': 'text/csv' });
    expect(imported.body).toMatchObject({ added: 1 });
    const { entries } = (await nurse.get(`/api/patients/${patientId}/entries?limit=200`)).body;
    const row = entries.find(({ kind }: { kind: string }) => kind === 'imported');
    const answer = await send(charge, 'kestrel', corrected(row.id, { drainedMl: 'a lot' }));
    expect(answer.status).toBe(422);
    expect(answer.body.errors[0].code).toBe('cannotBeCorrected');
  });
});

describe('text that Postgres does not store', () => {
  it('is refused in a remark and in settings', async () => {
    const remark = draft('cavityConfirmedEmpty', { reason: 'imaging', note: 'a\u0000' }, { patientId });
    for (const entry of [remark, settings({ 'a\u0000': 1 }), settings({ dayStart: '\ud800' })]) {
      const by = entry.kind === 'settingsChanged' ? manager : charge;
      expect((await send(by, 'kestrel', entry)).status, JSON.stringify(entry.payload)).toBe(400);
    }
  });
});

describe('settings', () => {
  it('are the ward’s own, never a patient’s', async () => {
    const answer = await send(manager, 'kestrel', settings({}, { patientId }));
    expect(answer.status).toBe(400);
    expect(answer.body.errors[0].field).toBe('entries.0.patientId');
  });
});

describe('a transfer to a ward that does not exist', () => {
  it('is refused and leaves the patient where they are', async () => {
    const traveller = await admitted(charge, 'kestrel', '2');
    const answer = await send(
      charge,
      'kestrel',
      draft('transferredOut', { toWardId: 'nowhere' }, { patientId: traveller }),
      draft('transferredIn', { fromWardId: 'kestrel', bed: '1' }, { patientId: traveller }),
    );
    expect(answer.status).toBe(422);
    expect((await nurse.get(`/api/patients/${traveller}/bedside`)).body).toMatchObject({ wardId: 'kestrel', bed: '2' });
  });
});

describe('work given to somebody', () => {
  const shift = () => ({ from: Date.now(), to: Date.now() + 3_600_000 });
  const assigned = (accountId: string) => draft('assigned', { accountId, name: 'Somebody', ...shift() }, { patientId });

  it('reaches only who works on the ward and can sign in', async () => {
    for (const accountId of [randomUUID(), hospital.accounts.wall!, hospital.accounts['merlin-nurse']!]) {
      const answer = await send(charge, 'kestrel', assigned(accountId));
      expect(answer.status).toBe(422);
      expect(answer.body.errors[0]).toMatchObject({ code: 'notOnStaff', value: accountId });
    }
    expect((await send(charge, 'kestrel', assigned(hospital.accounts['other-nurse']!))).status).toBe(200);
  });

  it('is not refused when it is sent again after they have left', async () => {
    const entry = assigned(hospital.accounts['other-nurse']!);
    const first = await send(charge, 'kestrel', entry);
    await manager.patch(`/api/accounts/${hospital.accounts['other-nurse']}`, { disabled: true });
    expect((await send(charge, 'kestrel', entry)).body.receipts).toEqual(first.body.receipts);
  });
});

describe('times that would take recorded steps out of sight', () => {
  const HOUR_MS = 3_600_000;
  const prepare = (of: string, happenedAt: number) =>
    draft('prepare', DRAIN_ONLY, { patientId: of, visitId: randomUUID(), happenedAt });
  const said = { bed: '3', inside: { cavity: 'empty' }, dialysis: 'chronic' } as const;

  /** Admitted a second time, by an entry that the test keeps. */
  async function lying(): Promise<{ of: string; admission: Draft<'admitted'> }> {
    const of = await admitted(charge, 'kestrel', '3');
    const left = await send(charge, 'kestrel', draft('discharged', { to: 'home', handover: null }, { patientId: of }));
    expect(left.status).toBe(200);
    const admission = draft('admitted', said, { patientId: of, happenedAt: left.body.receipts[0].happenedAt + 1 });
    expect((await send(charge, 'kestrel', admission)).status).toBe(200);
    return { of, admission };
  }
  const leave = (of: string) =>
    send(charge, 'kestrel', draft('discharged', { to: 'home', handover: null }, { patientId: of }));

  it('are refused for a step before the admission: a wrong year would block the bed unseen', async () => {
    const { of, admission } = await lying();
    for (const [at, code] of [
      [Date.UTC(2001, 0, 31), 'before-the-stay'],
      [admission.happenedAt - HOUR_MS, 'displaces-a-step'],
    ] as const) {
      const answer = await send(nurse, 'kestrel', prepare(of, at));
      expect(answer.status).toBe(422);
      expect(answer.body.errors[0].code).toBe(code);
    }
    expect((await send(nurse, 'kestrel', prepare(of, Date.now()))).status).toBe(200);
    await stopAndLeave(of);
  });

  it('are refused in corrections of the admission and of a step, and an admission with steps is not retracted', async () => {
    const { of, admission } = await lying();
    const step = prepare(of, admission.happenedAt + 1);
    expect((await send(nurse, 'kestrel', step)).status).toBe(200);
    const amend = (target: Draft, happenedAt: number) =>
      draft(
        'corrected',
        { target: target.id, reason: 'misread', payload: target.payload as Record<string, unknown>, happenedAt },
        { patientId: of },
      );
    const refusals = [
      amend(admission, step.happenedAt + 1),
      amend(step, admission.happenedAt - HOUR_MS),
      draft('retracted', { target: admission.id, reason: 'wrong', enteredAs: null }, { patientId: of }),
    ];
    for (const entry of refusals) {
      const answer = await send(charge, 'kestrel', entry);
      expect(answer.status, JSON.stringify(entry)).toBe(422);
      expect(answer.body.errors[0].code).toBe('displaces-a-step');
    }
    const { state } = (await nurse.get(`/api/patients/${of}/bedside`)).body;
    expect(state.visit.state).toBe('preparing');
    await stopAndLeave(of);
  });

  async function stopAndLeave(of: string) {
    const { head, visit } = (await nurse.get(`/api/patients/${of}/bedside`)).body.state;
    const why = { reason: 'calledAway', note: null, infused: null, contamination: null } as const;
    const stop = draft('stop', why, { patientId: of, visitId: visit.id, after: head });
    expect((await send(nurse, 'kestrel', stop)).status).toBe(200);
    expect((await leave(of)).status).toBe(200);
  }
});

describe('a transfer', () => {
  it('that says another ward of origin than the one it leaves is refused', async () => {
    const traveller = await admitted(charge, 'kestrel', '4');
    const answer = await send(
      charge,
      'kestrel',
      draft('transferredOut', { toWardId: 'merlin' }, { patientId: traveller }),
      draft('transferredIn', { fromWardId: 'elsewhere', bed: '1' }, { patientId: traveller }),
    );
    expect(answer.status).toBe(422);
    expect(answer.body.errors[0].field).toBe('entries.1.payload.fromWardId');
  });
});
