import { buildApp } from '@slackwater/api/app';
import pg from 'pg';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { type Browser, type Hospital, openHospital, PASSWORD } from './hospital.ts';

let hospital: Hospital;
beforeEach(async () => {
  hospital = await openHospital();
});
afterEach(() => hospital.close());

const guess = (browser: Browser, login = 'nurse') => browser.post('/api/sign-in', { login, password: 'a wrong guess' });
const right = (browser: Browser, login = 'nurse') => browser.post('/api/sign-in', { login, password: PASSWORD });
/** Makes all attempts so much older, as the owner of the tables: the server itself may not. */
async function letPass(seconds: number) {
  const owner = new pg.Client({ connectionString: hospital.database.ownerUrl });
  await owner.connect();
  await owner.query('UPDATE sign_in_attempt SET at = at - make_interval(secs => $1)', [seconds]);
  await owner.end();
}

async function fail(times: number, browser: Browser, login?: string) {
  for (let time = 0; time < times; time += 1) expect((await guess(browser, login)).status).toBe(401);
}

describe('guessing a password', () => {
  it('has to wait after five failures, the right one too, and says how long', async () => {
    const thief = hospital.browser('192.0.2.1');
    await fail(5, thief);
    const refused = await right(thief);
    expect(refused).toMatchObject({ status: 429, body: { code: 'tooManyAttempts' } });
    expect(refused.body.retryAfterS).toBeGreaterThan(0);
    expect(refused.body.retryAfterS).toBeLessThanOrEqual(2);
    expect(Number(refused.headers['retry-after'])).toBe(refused.body.retryAfterS);
  });

  it('does not make the wait longer while it lasts', async () => {
    const thief = hospital.browser('192.0.2.1');
    await fail(5, thief);
    for (let time = 0; time < 20; time += 1) expect((await guess(thief)).status).toBe(429);
    const { rows } = await hospital.pool.query('SELECT count(*)::int AS n FROM sign_in_attempt WHERE NOT succeeded');
    expect(rows[0].n).toBe(5);
  });

  it('locks the owner out neither at another address nor at the next desk', async () => {
    const ownTablet = await hospital.signedIn('nurse');
    await ownTablet.post('/api/sign-out');
    const thief = hospital.browser('127.0.0.1');
    await fail(5, thief);
    expect((await right(hospital.browser('127.0.0.1'))).status).toBe(429);
    expect((await right(hospital.browser('192.0.2.9'))).status).toBe(200);
    expect((await right(ownTablet)).status).toBe(200);
  });

  it('is not what a right password is, however often it takes the lock off', async () => {
    const own = await hospital.signedIn('nurse');
    for (let time = 0; time < 6; time += 1) {
      expect((await own.post('/api/unlock', { password: PASSWORD })).status).toBe(200);
    }
  });

  it('is slowed for one name and goes on for others', async () => {
    const thief = hospital.browser('192.0.2.1');
    await fail(5, thief);
    expect((await guess(thief)).status).toBe(429);
    expect((await right(thief, 'charge')).status).toBe(200);
  });

  it('is slowed for names that do not exist, just the same', async () => {
    const thief = hospital.browser('192.0.2.1');
    await fail(5, thief, 'no-such-name');
    expect((await guess(thief, 'no-such-name')).status).toBe(429);
  });

  it('through all names from one address is slowed too, but not for who has signed in there', async () => {
    const desk = hospital.browser('192.0.2.1');
    expect((await right(desk)).status).toBe(200);
    await hospital.pool.query(
      `INSERT INTO sign_in_attempt SELECT 'alder-point', gen_random_uuid(), 'name-' || n, '192.0.2.1', now(), false
       FROM generate_series(1, 60) AS n`,
    );
    expect((await right(hospital.browser('192.0.2.1'), 'charge')).status).toBe(429);
    expect((await right(desk)).status).toBe(200);
  });

  it('begins anew after a success', async () => {
    const nurse = hospital.browser('192.0.2.1');
    await fail(4, nurse);
    expect((await right(nurse)).status).toBe(200);
    await fail(4, nurse);
    expect((await right(nurse)).status).toBe(200);
  });

  it('counts for all processes: it stands in Postgres', async () => {
    await fail(5, hospital.browser('192.0.2.1'));
    const { appUrl: databaseUrl } = hospital.database;
    const other = await buildApp({
      databaseUrl,
      siteId: 'alder-point',
      https: false,
      boardFolder: null,
      build: 'test',
    });
    const answer = await other.server.inject({
      method: 'POST',
      url: '/api/sign-in',
      payload: { login: 'nurse', password: PASSWORD },
      remoteAddress: '192.0.2.1',
    });
    await other.close();
    expect(answer.statusCode).toBe(429);
  });

  it('may be tried again once the wait is over', async () => {
    const nurse = hospital.browser('192.0.2.1');
    await fail(5, nurse);
    expect((await right(nurse)).status).toBe(429);
    await letPass(2);
    expect((await guess(nurse)).status).toBe(401);
    await letPass(2);
    expect((await right(nurse)).status).toBe(429);
    await letPass(4);
    expect((await right(nurse)).status).toBe(200);
  });
});
