// What no screen of ours ever sends: each is answered as a problem of the sender's, never as a failure of the server.
import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { admitted, type Browser, type Hospital, openHospital, PASSWORD } from '../api/hospital.ts';

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

const NUL = '\u0000';
const cursor = (place: unknown) => Buffer.from(JSON.stringify(place)).toString('base64url');

describe('text that Postgres does not store (NUL, half a surrogate pair)', () => {
  it('is refused in a name at sign-in and in a search', async () => {
    for (const login of [`nurse${NUL}`, 'nurse\ud800']) {
      const answer = await hospital.browser().post('/api/sign-in', { login, password: PASSWORD });
      expect(answer.status).toBe(400);
      expect(answer.body.errors[0].field).toBe('login');
    }
    const found = await charge.get('/api/wards/kestrel/patients?search=%00%00');
    expect(found.status).toBe(400);
    expect(found.body.errors[0].field).toBe('search');
  });
});

describe('a cursor of the right form with a place that cannot be', () => {
  it('is refused', async () => {
    for (const place of [{ sequence: 9e15 }, { sequence: -9e15 }, { sequence: 1.5 }]) {
      const page = await nurse.get(`/api/patients/${patientId}/entries?cursor=${cursor(place)}`);
      expect(page.status, JSON.stringify(place)).toBe(400);
      expect(page.body.errors[0].field).toBe('cursor');
    }
    for (const atMs of [1e308, -1e300]) {
      const page = await manager.get(`/api/audit?cursor=${cursor({ atMs, id: randomUUID() })}`);
      expect(page.status, String(atMs)).toBe(400);
    }
  });
});

// RFC 3986, section 6.2.2.2 (an unreserved character and its escape are the same); RFC 9112, section 3.2.2
describe('an address of the API written in another way', () => {
  const ways = ['/%61pi', 'http://127.0.0.1/api'];

  it('asks for the same origin', async () => {
    for (const way of ways) {
      const headers = { origin: 'http://elsewhere.example' };
      const answer = await hospital.browser().post(`${way}/sign-in`, { login: 'nurse', password: PASSWORD }, headers);
      expect(answer.body.code, way).toBe('foreignOrigin');
    }
  });

  it('asks for an unlocked session, before the body is looked at', async () => {
    const locked = await hospital.signedIn('nurse');
    await locked.post('/api/lock');
    for (const way of ways) expect((await locked.post(`${way}/entries`, {})).status, way).toBe(423);
    for (const way of ways) expect((await hospital.browser().post(`${way}/entries`, {})).status, way).toBe(401);
  });

  it('knows who is signed in, and is never kept by a browser', async () => {
    for (const way of ways) {
      const answer = await nurse.get(`${way}/health`);
      expect(answer.body.status, way).toBe('ready');
      expect(answer.headers['cache-control'], way).toBe('no-store');
    }
  });
});

describe('a HEAD', () => {
  it('of the stream is not there: it would never end', async () => {
    expect((await nurse.send('HEAD', '/api/wards/kestrel/stream')).status).toBe(404);
  });
});

// RFC 9110, section 13.1.2: tags are compared weakly, and several may be given
describe('a ward that does not exist', () => {
  it('is not there for a manager either, who may look at every ward', async () => {
    const manager = await hospital.signedIn('manager');
    for (const path of ['', '/board', '/wall', '/alerts/measures']) {
      expect((await manager.get(`/api/wards/nowhere${path}`)).status, path).toBe(404);
    }
  });
});

describe('a board that a proxy kept', () => {
  it('is known by its tag, weakened or among others', async () => {
    const tag = String((await nurse.get('/api/wards/kestrel/board')).headers.etag);
    const status = async (ifNoneMatch: string) =>
      (await nurse.get('/api/wards/kestrel/board', { 'if-none-match': ifNoneMatch })).status;
    expect(await status(tag)).toBe(304);
    expect(await status(tag.replace('W/', ''))).toBe(304);
    expect(await status(`"another", ${tag}`)).toBe(304);
    expect(await status('"another"')).toBe(200);
    expect(await status(tag.slice(0, -2))).toBe(200);
  });
});

describe('a flood of guesses at once', () => {
  it('is held to as many as one after another', async () => {
    const thief = hospital.browser('192.0.2.77');
    const guess = () => thief.post('/api/sign-in', { login: 'physician', password: 'a wrong guess' });
    const answers = await Promise.all(Array.from({ length: 30 }, guess));
    expect(answers.filter(({ status }) => status === 401)).toHaveLength(5);
    expect(answers.filter(({ status }) => status === 429)).toHaveLength(25);
  });

  it('does not count the right ones of a whole ward that signs in at once', async () => {
    const one = () => hospital.browser('192.0.2.78').post('/api/sign-in', { login: 'charge', password: PASSWORD });
    for (let time = 0; time < 7; time += 1) expect((await one()).status).toBe(200);
    const { rows } = await hospital.pool.query(
      `SELECT count(*)::int AS failures FROM sign_in_attempt WHERE address = '192.0.2.78' AND NOT succeeded`,
    );
    expect(rows[0].failures).toBe(0);
  });
});

describe('a flow sheet', () => {
  it('of another kind of content than text/csv is refused at once', async () => {
    for (const type of ['application/json', 'text/plain']) {
      const answer = await manager.post('/api/wards/kestrel/import', '{}', { 'content-type': type });
      expect(answer.body.code, type).toBe('wrongMediaType');
    }
  });
});

describe('a new ward', () => {
  const ward = {
    id: 'petrel',
    name: 'Petrel Ward',
    zone: 'Europe/London',
    shiftStarts: ['07:00', '19:00'],
    beds: ['1'],
  };

  it('is refused with beds or shifts that are not told apart, and with a zone that knows no summer time', async () => {
    const wrong = [
      [{ beds: ['1', '1'] }, 'beds'],
      [{ shiftStarts: ['07:00', '07:00'] }, 'shiftStarts'],
      [{ shiftStarts: ['07:00', '23:00', '15:00'] }, 'shiftStarts'],
      [{ zone: '+02:00' }, 'zone'],
    ] as const;
    for (const [change, field] of wrong) {
      const answer = await manager.post('/api/wards', { ...ward, ...change });
      expect(answer.status, JSON.stringify(change)).toBe(400);
      expect(answer.body.errors[0].field).toBe(field);
    }
  });

  it('may begin its day in the evening', async () => {
    const evening = { ...ward, id: 'night', shiftStarts: ['19:00', '07:00'] };
    expect((await manager.post('/api/wards', evening)).status).toBe(201);
  });
});
