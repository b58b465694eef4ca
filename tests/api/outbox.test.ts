import { randomBytes, randomUUID } from 'node:crypto';
import { erase } from '@slackwater/api/record/erase';
import { verify } from '@slackwater/api/record/verify';
import { type Draft, HOUR_MS, MINUTE_MS } from '@slackwater/domain';
import pg from 'pg';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import {
  admitted,
  type Browser,
  DRAIN_ONLY,
  draft,
  type Hospital,
  openHospital,
  PASSWORD,
  SITE,
  send,
} from './hospital.ts';

let hospital: Hospital;
let nurse: Browser;
let other: Browser;
let charge: Browser;
let manager: Browser;
let patientId: string;
let bed = 0;

beforeAll(async () => {
  hospital = await openHospital({ beds: 30 });
  nurse = await hospital.signedIn('nurse');
  other = await hospital.signedIn('other-nurse');
  charge = await hospital.signedIn('charge');
  manager = await hospital.signedIn('manager');
});
beforeEach(async () => {
  bed += 1;
  patientId = await admitted(charge, 'kestrel', String(bed));
});
afterAll(() => hospital.close());

const weight = (weightKg: number, happenedAt = Date.now()) =>
  draft('weight', { weightKg, cavity: 'empty' }, { patientId, happenedAt });

/** A drain that is prepared without a bag. */
const prepare = (after: string | null, visitId: string = randomUUID()) =>
  draft('prepare', DRAIN_ONLY, { patientId, visitId, after });

const outbox = (browser: Browser, ...entries: readonly unknown[]) =>
  browser.post('/api/outbox', {
    authorId: hospital.accounts.nurse,
    wardId: 'kestrel',
    deviceAt: Date.now() - HOUR_MS,
    entries,
  });
const entriesOf = async (): Promise<Draft[]> =>
  (await nurse.get(`/api/patients/${patientId}/entries?limit=200`)).body.entries;
const open = async (browser: Browser, path = '/api/kept') =>
  (await browser.get(path)).body.batches.filter((one: { patientId: string }) => one.patientId === patientId);
const auditOf = async (what: string) =>
  (await manager.get(`/api/audit?limit=50`)).body.events.filter(
    (event: { what: string; patientId: string }) => event.what === what && event.patientId === patientId,
  );

describe('the key of an account on a device', () => {
  const keyIn = async (browser: Browser, login = 'nurse') =>
    (await browser.post('/api/sign-in', { login, password: PASSWORD })).body.deviceKey;

  it('is 256 bits, handed out at sign-in, the same whenever this person signs in on this device', async () => {
    const device = hospital.browser();
    const first = await keyIn(device);
    expect(Buffer.from(first, 'base64')).toHaveLength(32);
    await device.post('/api/sign-out');
    expect(await keyIn(device)).toBe(first);
  });

  it('is the same for a browser whose cookie is gone, by the secret that it keeps itself', async () => {
    const device = randomBytes(32).toString('base64url');
    const signIn = { login: 'nurse', password: PASSWORD, device };
    const keys = [];
    // a browser that died before it wrote its cookies down comes back without any
    for (const browser of [hospital.browser(), hospital.browser()])
      keys.push((await browser.post('/api/sign-in', signIn)).body.deviceKey);
    expect(keys[1]).toBe(keys[0]);
    const other = { ...signIn, login: 'other-nurse' };
    expect((await hospital.browser().post('/api/sign-in', other)).body.deviceKey).not.toBe(keys[0]);
    const short = { ...signIn, device: device.slice(1) };
    expect((await hospital.browser().post('/api/sign-in', short)).status).toBe(400);
  });

  it('is another on another device, and another for another person on the same one', async () => {
    const device = hospital.browser();
    const keys = [await keyIn(device), await keyIn(hospital.browser()), await keyIn(device, 'other-nurse')];
    expect(new Set(keys).size).toBe(3);
  });

  it('is given against the password alone: neither the session nor the unlocking says it', async () => {
    const device = hospital.browser();
    await keyIn(device);
    await device.post('/api/lock');
    const unlocked = await device.post('/api/unlock', { password: PASSWORD });
    expect(unlocked.status).toBe(200);
    expect(unlocked.body).not.toHaveProperty('deviceKey');
    expect((await device.get('/api/session')).body).not.toHaveProperty('deviceKey');
  });

  it('is neither changed nor taken away by the server’s own role', async () => {
    await expect(hospital.pool.query('DELETE FROM device_key')).rejects.toThrow(/permission denied/);
    await expect(hospital.pool.query("UPDATE device_key SET key = '\\x00'")).rejects.toThrow(/permission denied/);
  });
});

describe('what waited on a device', () => {
  it('goes into the record with the time of the device beside it, and once however often it is sent', async () => {
    const waited = weight(70, Date.now() - HOUR_MS);
    const first = await outbox(nurse, waited);
    expect(first.body).toMatchObject({ outcome: 'recorded', answer: { receipts: [{ id: waited.id }] } });
    const again = await outbox(nurse, waited);
    expect(again.body.answer.receipts).toEqual(first.body.answer.receipts);
    const stored = (await entriesOf()).filter((entry) => entry.id === waited.id);
    expect(stored).toHaveLength(1);
    expect(stored[0]).toMatchObject({ happenedAt: waited.happenedAt, releasedByName: null });
  });

  it('is taken although the device’s own clock was ahead, since its times were looked at before it was sent', async () => {
    const entries = [weight(70)];
    const ahead = { authorId: hospital.accounts.nurse, wardId: 'kestrel', deviceAt: Date.now() + HOUR_MS, entries };
    expect((await nurse.post('/api/outbox', ahead)).body.outcome).toBe('recorded');
  });

  it('is not taken from somebody else’s session in the same browser', async () => {
    const mine = weight(70);
    expect((await outbox(other, mine)).status).toBe(401);
    expect((await entriesOf()).map(({ id }) => id)).not.toContain(mine.id);
  });

  it('is sent again later while the step before has not arrived', async () => {
    expect((await outbox(nurse, prepare(randomUUID()))).status).toBe(425);
    expect(await open(nurse)).toEqual([]);
  });

  it('is kept for its author where somebody else was faster, with everything that followed', async () => {
    const [mine, theirs] = [prepare(null), prepare(null)];
    expect((await send(other, 'kestrel', theirs)).status).toBe(200);
    const refused = await outbox(nurse, mine);
    expect(refused.body).toMatchObject({ outcome: 'kept', problem: { code: 'conflict' } });
    const connect = draft('connect', {}, { patientId, visitId: mine.visitId!, after: mine.id });
    const following = await outbox(nurse, connect);
    expect(following.body).toMatchObject({ outcome: 'kept', problem: { code: 'unknownAfter' } });
    expect((await open(nurse)).map((one: { entries: Draft[] }) => one.entries.map(({ kind }) => kind))).toEqual([
      ['prepare'],
      ['connect'],
    ]);
    expect((await entriesOf()).map(({ id }) => id)).not.toContain(mine.id);
  });

  it('is kept once, although the answer was lost and it was sent again', async () => {
    const bad = weight(70, Date.now() + HOUR_MS);
    const first = await outbox(nurse, bad);
    expect(await outbox(nurse, bad)).toMatchObject({ body: { keptId: first.body.keptId } });
    expect(await open(nurse)).toHaveLength(1);
  });

  it('is kept although this server does not read its format, and says what is wrong with it', async () => {
    const old = { ...weight(70), format: 0, payload: { kg: 70 } };
    const answer = await outbox(nurse, old);
    expect(answer.body).toMatchObject({ outcome: 'kept', problem: { code: 'invalid' } });
    expect(answer.body.problem.errors.map((error: { field: string }) => error.field)).toContain('entries.0.format');
    expect((await open(nurse))[0].entries).toEqual([old]);
  });

  it('stays as it was kept, also against the server’s own role', async () => {
    await outbox(nurse, weight(70, Date.now() + HOUR_MS));
    for (const change of ['DELETE FROM kept_batch', "UPDATE kept_batch SET entries = '[1]'"]) {
      await expect(hospital.pool.query(change)).rejects.toThrow(/permission denied/);
    }
  });
});

describe('what was kept for its author', () => {
  const future = () => weight(70, Date.now() + HOUR_MS);
  const keep = async (entry: Draft): Promise<string> => (await outbox(nurse, entry)).body.keptId;

  it('is shown to its author and to the charge nurse, and to no colleague', async () => {
    await keep(future());
    expect((await open(nurse))[0]).toMatchObject({
      author: { name: 'Name of nurse' },
      patient: { family: 'Fennel' },
      problem: { code: 'refused' },
    });
    expect(await open(charge, '/api/wards/kestrel/kept')).toHaveLength(1);
    expect(await open(other)).toEqual([]);
    expect((await other.get('/api/wards/kestrel/kept')).status).toBe(403);
  });

  it('is amended and sent by its author, and noted', async () => {
    const bad = future();
    const id = await keep(bad);
    const amended = { ...bad, happenedAt: Date.now() - MINUTE_MS };
    const answer = await nurse.post('/api/kept/send', { batchIds: [id], entries: [amended], reason: null });
    expect(answer.status).toBe(200);
    expect((await entriesOf()).find((entry) => entry.id === bad.id)).toMatchObject({
      authorName: 'Name of nurse',
      releasedByName: null,
      happenedAt: amended.happenedAt,
    });
    expect(await open(nurse)).toEqual([]);
    expect(await auditOf('sentKept')).toMatchObject([{ detail: { author: hospital.accounts.nurse, sent: 1 } }]);
  });

  it('stays kept where it is refused again', async () => {
    const bad = future();
    const id = await keep(bad);
    expect((await nurse.post('/api/kept/send', { batchIds: [id], entries: [bad], reason: null })).status).toBe(422);
    expect(await open(nurse)).toHaveLength(1);
  });

  it('is released by the charge nurse under both names, in a chain that verifies', async () => {
    const bad = future();
    const id = await keep(bad);
    const entries = [{ ...bad, happenedAt: Date.now() }];
    const nameless = await charge.post('/api/kept/send', { batchIds: [id], entries, reason: null });
    expect(nameless.body.errors).toMatchObject([{ field: 'reason' }]);
    const answer = await charge.post('/api/kept/send', { batchIds: [id], entries, reason: 'on leave since noon' });
    expect(answer.status).toBe(200);
    expect((await entriesOf()).find((entry) => entry.id === bad.id)).toMatchObject({
      author: hospital.accounts.nurse,
      authorName: 'Name of nurse',
      releasedByName: 'Name of charge',
    });
    expect(await auditOf('releasedKept')).toMatchObject([
      { accountName: 'Name of charge', detail: { author: hospital.accounts.nurse, reason: 'on leave since noon' } },
    ]);
    expect((await verify(hospital.pool, SITE)).faults).toEqual([]);
  });

  it('carries nothing under its author’s name that its author did not write', async () => {
    const bad = future();
    const id = await keep(bad);
    const reason = 'on leave';
    for (const entry of [weight(71), { ...bad, patientId: await admitted(charge, 'kestrel', '30', 'Elsewhere') }]) {
      const answer = await charge.post('/api/kept/send', { batchIds: [id], entries: [entry], reason });
      expect(answer.body.errors).toMatchObject([{ code: 'otherEntry' }]);
    }
  });

  it('is discarded with a reason, by its author or the charge nurse, and is decided once', async () => {
    const id = await keep(future());
    const discard = (browser: Browser, reason?: string) =>
      browser.post('/api/kept/discard', { batchIds: [id], ...(reason === undefined ? {} : { reason }) });
    expect((await discard(nurse)).status).toBe(400);
    expect((await discard(other, 'mine')).status).toBe(403);
    expect((await discard(charge, 'on the paper sheet')).status).toBe(204);
    expect((await discard(nurse, 'again')).status).toBe(404);
    expect(await open(nurse)).toEqual([]);
    expect(await auditOf('discardedKept')).toMatchObject([{ detail: { reason: 'on the paper sheet', entries: 1 } }]);
  });

  it('is gone, decided about or not, when its patient is erased by law', async () => {
    const decided = await keep(future());
    await keep(future());
    await nurse.post('/api/kept/discard', { batchIds: [decided], reason: 'typed twice' });
    await send(charge, 'kestrel', draft('discharged', { to: 'home', handover: null }, { patientId }));
    const owner = new pg.Pool({ connectionString: hospital.database.ownerUrl });
    owner.on('error', () => {});
    try {
      await erase(owner, { siteId: SITE, patientId, reason: 'asked for by the patient' });
    } finally {
      await owner.end();
    }
    const { rows } = await hospital.pool.query('SELECT FROM kept_batch WHERE patient_id = $1', [patientId]);
    expect(rows).toEqual([]);
  });

  it('does not come back when its device, which never heard the answer, sends it once more', async () => {
    const bad = future();
    const id = await keep(bad);
    await nurse.post('/api/kept/discard', { batchIds: [id], reason: 'typed twice' });
    await outbox(nurse, bad);
    expect(await open(nurse)).toEqual([]);
  });
});
