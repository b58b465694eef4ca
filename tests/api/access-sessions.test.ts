import { openSessions } from '@slackwater/api/access/sessions';
import { buildApp } from '@slackwater/api/app';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { admitted, draft, type Hospital, openHospital, PASSWORD, SITE, send } from './hospital.ts';

let hospital: Hospital;
let patientId: string;
beforeAll(async () => {
  hospital = await openHospital();
  patientId = await admitted(await hospital.signedIn('charge'), 'kestrel', '1');
});
afterAll(() => hospital.close());

const weight = () => draft('weight', { weightKg: 70, cavity: 'empty' }, { patientId });

/** Lets the database's clock run ahead for all sessions of an account. */
const letPass = (login: string, interval: string) =>
  hospital.pool.query(
    `UPDATE session SET started_at = started_at - $3::interval, last_seen_at = last_seen_at - $3::interval,
       ends_at = ends_at - $3::interval
     WHERE site_id = $1 AND account_id = $2`,
    [SITE, hospital.accounts[login], interval],
  );

describe('signing in', () => {
  it('answers who it is, where, and until when', async () => {
    const nurse = hospital.browser();
    const { status, body } = await nurse.post('/api/sign-in', { login: ' NURSE ', password: PASSWORD });
    expect(status).toBe(200);
    expect(body).toMatchObject({
      account: { login: 'nurse', name: 'Name of nurse' },
      roles: [{ wardId: 'kestrel', wardName: 'Kestrel Ward', role: 'nurse' }],
      manager: false,
      lockedAt: null,
      idleLockMs: 30 * 60_000,
      demonstration: false,
    });
    expect(body.endsAt - body.serverAt).toBeCloseTo(12.5 * 3_600_000, -3);
  });

  it('tells nobody whether the name or the password was wrong', async () => {
    const wrongName = await hospital.browser().post('/api/sign-in', { login: 'no-such', password: PASSWORD });
    const wrongPassword = await hospital.browser().post('/api/sign-in', { login: 'physician', password: 'wrong' });
    expect(wrongName.status).toBe(401);
    expect({ ...wrongName.body, instance: '' }).toEqual({ ...wrongPassword.body, instance: '' });
  });

  it('gives a wall display 90 days', async () => {
    const { body } = await hospital.browser().post('/api/sign-in', { login: 'wall', password: PASSWORD });
    expect(body.endsAt - body.serverAt).toBeCloseTo(90 * 24 * 3_600_000, -3);
  });

  it('keeps nothing in the database that could be used to be somebody', async () => {
    const nurse = await hospital.signedIn('nurse');
    const { rows } = await hospital.pool.query('SELECT to_jsonb(s)::text AS text FROM session s');
    for (const { text } of rows) expect(text).not.toContain(nurse.cookies.slackwater);
  });

  it('ends the session that this browser had before', async () => {
    const browser = await hospital.signedIn('nurse');
    const before = { ...browser.cookies };
    await browser.post('/api/sign-in', { login: 'physician', password: PASSWORD });
    const old = hospital.browser();
    Object.assign(old.cookies, before);
    expect((await old.get('/api/session')).status).toBe(401);
  });
});

describe('the cookie', () => {
  const cookieOf = (headers: Record<string, unknown>) => [headers['set-cookie']].flat().map(String);

  it('cannot be read by scripts nor sent from another site', async () => {
    const { headers } = await hospital.browser().post('/api/sign-in', { login: 'nurse', password: PASSWORD });
    const [session] = cookieOf(headers);
    expect(session).toMatch(/^slackwater=[\w-]{43}; Path=\/; Expires=[^;]+; HttpOnly; SameSite=Strict$/);
  });

  // RFC 6265bis, section 4.1.3.2: the prefix binds a cookie to the host, the whole of it, and https
  it('is bound to the host over https', async () => {
    const secure = await openHospital({ https: true });
    try {
      const { headers } = await secure.browser().post('/api/sign-in', { login: 'nurse', password: PASSWORD });
      for (const cookie of cookieOf(headers)) {
        expect(cookie).toMatch(/^__Host-slackwater(-device)?=[^;]+; Path=\/; .*HttpOnly; Secure; SameSite=Strict$/);
        expect(cookie).not.toMatch(/Domain/i);
      }
      expect(headers['strict-transport-security']).toMatch(/max-age=\d{7,}/);
    } finally {
      await secure.close();
    }
  });
});

describe('after half an hour without a change', () => {
  it('writing waits for the password, reading goes on', async () => {
    const nurse = await hospital.signedIn('nurse');
    await letPass('nurse', '29 minutes');
    expect((await send(nurse, 'kestrel', weight())).status).toBe(200);

    await letPass('nurse', '31 minutes');
    const kept = weight();
    const locked = await send(nurse, 'kestrel', kept);
    expect(locked).toMatchObject({ status: 423, body: { code: 'locked' } });
    expect((await nurse.get('/api/wards/kestrel/board')).status).toBe(200);
    expect((await nurse.get('/api/session')).body.lockedAt).toBeTypeOf('number');

    expect((await nurse.post('/api/unlock', { password: 'wrong' })).status).toBe(401);
    expect((await send(nurse, 'kestrel', kept)).status).toBe(423);
    const unlocked = await nurse.post('/api/unlock', { password: PASSWORD });
    expect(unlocked).toMatchObject({ status: 200, body: { lockedAt: null } });
    expect((await send(nurse, 'kestrel', kept)).status).toBe(200);
  });

  it('which every change begins anew', async () => {
    const nurse = await hospital.signedIn('nurse');
    for (let changes = 0; changes < 3; changes += 1) {
      await letPass('nurse', '20 minutes');
      expect((await send(nurse, 'kestrel', weight())).status).toBe(200);
    }
  });

  it('the same can be had at once, by hand', async () => {
    const nurse = await hospital.signedIn('nurse');
    expect((await nurse.post('/api/lock')).body.lockedAt).toBeTypeOf('number');
    expect((await send(nurse, 'kestrel', weight())).status).toBe(423);
  });
});

describe('the end of a session', () => {
  it('comes after twelve and a half hours, however busy', async () => {
    const nurse = await hospital.signedIn('nurse');
    await letPass('nurse', '12 hours 31 minutes');
    expect((await send(nurse, 'kestrel', weight())).status).toBe(401);
  });

  it('comes by signing out, for this browser alone', async () => {
    const [one, other] = [await hospital.signedIn('nurse'), await hospital.signedIn('nurse')];
    const kept = { ...one.cookies };
    expect((await one.post('/api/sign-out')).status).toBe(204);
    expect(one.cookies.slackwater).toBeUndefined();
    Object.assign(one.cookies, kept);
    expect((await one.get('/api/session')).status).toBe(401);
    expect((await one.get('/api/wards/kestrel/board')).status).toBe(401);
    expect((await other.get('/api/session')).status).toBe(200);
  });

  it('comes by signing out everywhere, for all browsers', async () => {
    const [one, other] = [await hospital.signedIn('nurse'), await hospital.signedIn('nurse')];
    expect((await other.get('/api/wards/kestrel/board')).status).toBe(200);
    await one.post('/api/sign-out-everywhere');
    expect((await other.get('/api/wards/kestrel/board')).status).toBe(401);
    expect((await send(other, 'kestrel', weight())).status).toBe(401);
  });
});

describe('another process', () => {
  it('remembers a session for five seconds, forgets it when told, and asks for every change', async () => {
    let now = 0;
    const elsewhere = openSessions(hospital.pool, SITE, () => now);
    const nurse = await hospital.signedIn('nurse');
    const token = nurse.cookies.slackwater!;
    const accountId = hospital.accounts.nurse!;
    expect(await elsewhere.recall(token)).toMatchObject({ login: 'nurse' });

    await nurse.post('/api/sign-out');
    now = 4_999;
    expect(await elsewhere.recall(token)).toMatchObject({ login: 'nurse' });
    now = 5_000;
    expect(await elsewhere.recall(token)).toBeNull();

    const second = await hospital.signedIn('nurse');
    const secondToken = second.cookies.slackwater!;
    await elsewhere.recall(secondToken);
    await second.post('/api/sign-out');
    expect(await elsewhere.ask(secondToken)).toBeNull();

    const third = await hospital.signedIn('nurse');
    const thirdToken = third.cookies.slackwater!;
    await elsewhere.recall(thirdToken);
    await third.post('/api/sign-out');
    elsewhere.forget(accountId);
    expect(await elsewhere.recall(thirdToken)).toBeNull();
  });
});

describe('two processes', () => {
  it('hear of each other when a session ends', async () => {
    const { appUrl: databaseUrl } = hospital.database;
    const other = await buildApp({ databaseUrl, siteId: SITE, https: false, boardFolder: null, build: 'test' });
    try {
      const nurse = await hospital.signedIn('nurse');
      const token = nurse.cookies.slackwater!;
      expect(await other.access.sessions.recall(token)).not.toBeNull();
      await nurse.post('/api/sign-out');
      await vi.waitFor(async () => expect(await other.access.sessions.recall(token)).toBeNull(), {
        timeout: 4_000,
        interval: 20,
      });
    } finally {
      await other.close();
    }
  });
});

describe('a page of another site', () => {
  it('changes nothing with this person’s cookie', async () => {
    const nurse = await hospital.signedIn('nurse');
    const body = { wardId: 'kestrel', deviceAt: Date.now(), entries: [weight()] };
    for (const headers of [
      { origin: 'https://elsewhere.example' },
      { origin: 'null' },
      { origin: 'http://localhost:81' },
      { 'sec-fetch-site': 'cross-site' },
      { 'sec-fetch-site': 'same-site' },
    ]) {
      const answer = await nurse.post('/api/entries', body, headers as Record<string, string>);
      expect(answer, JSON.stringify(headers)).toMatchObject({ status: 403, body: { code: 'foreignOrigin' } });
    }
    const own = { host: 'ward.example:4600', origin: 'http://ward.example:4600', 'sec-fetch-site': 'same-origin' };
    expect((await nurse.post('/api/entries', body, own)).status).toBe(200);
  });

  it('neither frames ours nor brings a script or a style into it', async () => {
    const { headers } = await hospital.browser().get('/api/health');
    const policy = String(headers['content-security-policy']);
    expect(policy).toContain("default-src 'none'");
    expect(policy).toContain("script-src 'self'");
    expect(policy).toContain("frame-ancestors 'none'");
    expect(policy).not.toMatch(/unsafe|upgrade-insecure-requests|\*/);
  });
});

describe('the audit', () => {
  it('keeps who read whom, once a look, and who signed in', async () => {
    const nurse = await hospital.signedIn('other-nurse');
    for (let look = 0; look < 3; look += 1) await nurse.get(`/api/patients/${patientId}/bedside`);
    const manager = await hospital.signedIn('manager');
    const { body } = await manager.get(`/api/audit?accountId=${hospital.accounts['other-nurse']}`);
    expect(body.events.map((event: { what: string }) => event.what)).toEqual(['readPatient', 'signedIn']);
    expect(body.events[0]).toMatchObject({ patientId, wardId: 'kestrel', accountName: 'Name of other-nurse' });
    const ofPatient = await manager.get(`/api/audit?patientId=${patientId}&limit=1`);
    expect(ofPatient.body.events).toHaveLength(1);
    const next = await manager.get(`/api/audit?patientId=${patientId}&limit=1&cursor=${ofPatient.body.nextCursor}`);
    expect(next.body.events[0]).toMatchObject({ what: 'admittedPatient' });
  });

  it('cannot be changed or emptied by the server itself', async () => {
    for (const sql of ['UPDATE audit SET action = action', 'DELETE FROM audit', 'TRUNCATE audit']) {
      await expect(hospital.pool.query(sql), sql).rejects.toThrow(/permission denied/);
    }
  });
});
