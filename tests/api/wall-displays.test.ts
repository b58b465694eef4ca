import { randomUUID } from 'node:crypto';
import type { MadeWallDisplay, WallDisplay } from '@slackwater/contract';
import { HOUR_MS } from '@slackwater/domain';
import pg from 'pg';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { admitted, type Browser, type Hospital, openHospital, PASSWORD } from './hospital.ts';

let hospital: Hospital;
let charge: Browser;
let patientId: string;

beforeAll(async () => {
  hospital = await openHospital();
  charge = await hospital.signedIn('charge');
  patientId = await admitted(charge, 'kestrel', '1', 'Trevanion');
  await hospital.app.listen({ port: 0 });
});
afterAll(() => hospital.close());

const LIST = '/api/wards/kestrel/wall-displays';

async function make(name: string): Promise<MadeWallDisplay> {
  const { status, body } = await charge.post(LIST, { id: randomUUID(), name });
  expect(status).toBe(201);
  return body;
}

async function opened(name: string) {
  const made = await make(name);
  const device = hospital.browser();
  const answer = await device.post('/api/wall-displays/open', { code: made.code });
  return { made, device, answer };
}

const listed = async (id: string): Promise<WallDisplay> => {
  const { displays } = (await charge.get(LIST)).body;
  return displays.find((display: WallDisplay) => display.id === id);
};

/** The ward's stream over a real connection. `read` goes on until the words came, or to the stream's end. */
async function streamOf(device: Browser) {
  const { port } = hospital.app.server.address() as { port: number };
  const cookie = Object.entries(device.cookies)
    .map(([name, value]) => `${name}=${value}`)
    .join('; ');
  const leaving = new AbortController();
  const url = `http://127.0.0.1:${port}/api/wards/kestrel/stream`;
  const { body } = await fetch(url, { headers: { cookie }, signal: leaving.signal });
  const parts = body!.pipeThrough(new TextDecoderStream()).getReader();
  const read = async (words: string) => {
    let heard = '';
    while (!heard.includes(words)) {
      const { done, value } = await parts.read();
      if (done) return `${heard}[ended]`;
      heard += value;
    }
    return heard;
  };
  return { read, leave: () => leaving.abort() };
}

it('is opened by its code, once, however it is typed, for 90 days and for its ward alone', async () => {
  const made = await make('Corridor');
  expect(await listed(made.id)).toMatchObject({
    name: 'Corridor',
    madeBy: 'Name of charge',
    codeEndsAt: made.codeEndsAt,
    lastSeenAt: null,
    endsAt: null,
    revokedAt: null,
  });
  const device = hospital.browser();
  const typed = ` ${made.code.toLowerCase().replaceAll('-', ' ')}`;
  const { status, body } = await device.post('/api/wall-displays/open', { code: typed });
  expect(status).toBe(200);
  expect(body.roles).toEqual([{ wardId: 'kestrel', wardName: 'Kestrel Ward', role: 'wall' }]);
  expect(Math.round((body.endsAt - body.serverAt) / (24 * HOUR_MS))).toBe(90);
  expect((await device.get('/api/wards/kestrel/wall')).status).toBe(200);
  expect((await device.get('/api/wards/merlin/wall')).status).toBe(404);
  expect((await device.get('/api/wards/kestrel/board')).status).toBe(403);
  expect(await listed(made.id)).toMatchObject({ codeEndsAt: null, endsAt: body.endsAt });

  const second = await hospital.browser().post('/api/wall-displays/open', { code: made.code });
  expect(second).toMatchObject({ status: 410, body: { code: 'codeUsed' } });
});

it('keeps of the code only its hash, and of a password nothing that anybody has', async () => {
  const made = await make('Store');
  const { rows } = await hospital.pool.query(
    'SELECT w::text || a::text AS kept FROM wall_display w JOIN account a ON a.id = w.account_id WHERE a.id = $1',
    [made.id],
  );
  expect(rows[0].kept).not.toContain(made.code);
  expect(rows[0].kept).not.toContain(made.code.replaceAll('-', ''));
  const login = { login: `wall-${made.id}`, password: PASSWORD };
  expect((await hospital.browser().post('/api/sign-in', login)).status).toBe(401);
});

it('is let in by no code that has ended, and by none of a display that was revoked', async () => {
  const [late, revoked] = [await make('Late'), await make('Revoked')];
  const owner = new pg.Client({ connectionString: hospital.database.ownerUrl });
  await owner.connect();
  await owner.query('UPDATE wall_display SET code_ends_at = now() WHERE account_id = $1', [late.id]);
  await owner.end();
  await charge.post(`${LIST}/${revoked.id}/revoke`);
  for (const { code } of [late, revoked, { code: '2222-2222-2222' }]) {
    const { status, body } = await hospital.browser().post('/api/wall-displays/open', { code });
    expect({ status, code: body.code }).toEqual({ status: 410, code: 'codeUsed' });
  }
});

it('sees nothing from the moment it is revoked, and is listed as revoked', async () => {
  const { made, device } = await opened('Door');
  expect((await device.get('/api/wards/kestrel/wall')).status).toBe(200);
  const stream = await streamOf(device);
  expect(await stream.read('event: beat')).not.toContain('[ended]');
  expect((await charge.post(`${LIST}/${made.id}/revoke`)).status).toBe(204);
  // before anything more is said on it: the next beat would carry this word
  expect(await stream.read('event: ')).toBe('[ended]');
  expect((await device.get('/api/wards/kestrel/wall')).status).toBe(401);
  expect((await listed(made.id)).revokedAt).toEqual(expect.any(Number));
  expect((await listed(made.id)).endsAt).toBeNull();
});

it('is renewed by a new code for the same display: what is open goes on until then, and only one device shows it', async () => {
  const { made, device } = await opened('Pantry');
  // as it stands three months later, with two weeks left
  await hospital.pool.query("UPDATE session SET ends_at = now() + interval '14 days' WHERE account_id = $1", [made.id]);
  const { status, body: renewed } = await charge.post(`${LIST}/${made.id}/renew`);
  expect(status).toBe(200);
  expect(renewed).toMatchObject({ id: made.id, codeEndsAt: expect.any(Number) });
  expect(renewed.code).not.toBe(made.code);
  expect(await listed(made.id)).toMatchObject({ codeEndsAt: renewed.codeEndsAt, endsAt: expect.any(Number) });
  expect((await device.get('/api/wards/kestrel/wall')).status).toBe(200);

  const answer = await device.post('/api/wall-displays/open', { code: renewed.code });
  expect(answer.status).toBe(200);
  expect(Math.round((answer.body.endsAt - answer.body.serverAt) / (24 * HOUR_MS))).toBe(90);
  expect(await listed(made.id)).toMatchObject({ name: 'Pantry', codeEndsAt: null, endsAt: answer.body.endsAt });
  const again = (await charge.post(`${LIST}/${made.id}/renew`)).body;
  const other = hospital.browser();
  expect((await other.post('/api/wall-displays/open', { code: again.code })).status).toBe(200);
  expect((await device.get('/api/wards/kestrel/wall')).status).toBe(401);
  expect((await other.get('/api/wards/kestrel/wall')).status).toBe(200);
});

it('is renewed too where its code was never used or its 90 days are over, not where it was revoked or has a password', async () => {
  const unused = await make('Linen');
  const renewed = (await charge.post(`${LIST}/${unused.id}/renew`)).body;
  const first = await hospital.browser().post('/api/wall-displays/open', { code: unused.code });
  expect(first).toMatchObject({ status: 410, body: { code: 'codeUsed' } });
  const device = hospital.browser();
  expect((await device.post('/api/wall-displays/open', { code: renewed.code })).status).toBe(200);

  await hospital.pool.query('UPDATE session SET ends_at = now() WHERE account_id = $1', [unused.id]);
  expect((await listed(unused.id)).endsAt).toBeNull();
  expect((await charge.post(`${LIST}/${unused.id}/renew`)).status).toBe(200);

  await charge.post(`${LIST}/${unused.id}/revoke`);
  for (const id of [unused.id, hospital.accounts.wall, hospital.accounts.nurse]) {
    expect(await charge.post(`${LIST}/${id}/renew`)).toMatchObject({ status: 404, body: { code: 'notFound' } });
  }
});

describe('guessing a code', () => {
  const guess = (browser: Browser, code = '2222-2222-2222') => browser.post('/api/wall-displays/open', { code });
  const guesser = async (address: string) => {
    const thief = hospital.browser(address);
    for (let time = 0; time < 5; time += 1) expect((await guess(thief)).status).toBe(410);
    // as if it went on: the wait after ten outlasts a slow machine
    await hospital.pool.query(
      `INSERT INTO sign_in_attempt SELECT site_id, gen_random_uuid(), login, address, at, succeeded
       FROM sign_in_attempt WHERE address = $1 AND NOT succeeded`,
      [address],
    );
    return thief;
  };

  it('has to wait, with the right one too, and is told how long and what else helps', async () => {
    const { code } = await make('Guessed');
    const thief = await guesser('192.0.2.1');
    const refused = await guess(thief, code);
    expect(refused).toMatchObject({ status: 429, body: { code: 'tooManyAttempts' } });
    expect(refused.body.detail).toContain('wrong codes');
    expect(Number(refused.headers['retry-after'])).toBe(refused.body.retryAfterS);
    expect(refused.body.retryAfterS).toBeGreaterThan(0);
    expect(refused.body.detail).toMatch(/Try again in \d+ s, or sign in here first/);
    const owner = new pg.Client({ connectionString: hospital.database.ownerUrl });
    await owner.connect();
    await owner.query("UPDATE sign_in_attempt SET at = at - interval '15 minutes'");
    await owner.end();
    expect((await guess(thief, code)).status).toBe(200);
  });

  it('keeps waiting neither another address, nor who signs in at the same one, nor a device that was a display', async () => {
    const [known, elsewhere, here] = [await make('Known'), await make('Elsewhere'), await make('Here')];
    const display = hospital.browser('192.0.2.2');
    expect((await guess(display, known.code)).status).toBe(200);
    await guesser('192.0.2.2');
    const desk = hospital.browser('192.0.2.2');
    expect((await guess(desk, here.code)).status).toBe(429);
    expect((await guess(hospital.browser('192.0.2.9'), elsewhere.code)).status).toBe(200);
    const { code } = (await charge.post(`${LIST}/${known.id}/renew`)).body;
    expect((await guess(display, code)).status).toBe(200);
    await desk.post('/api/sign-in', { login: 'charge', password: PASSWORD });
    expect((await guess(desk, here.code)).status).toBe(200);
  });

  it('costs nobody at that address their sign-in', async () => {
    await guesser('192.0.2.3');
    const desk = hospital.browser('192.0.2.3');
    expect((await desk.post('/api/sign-in', { login: 'nurse', password: PASSWORD })).status).toBe(200);
  });

  it('is in the audit', async () => {
    const { rows } = await hospital.pool.query("SELECT DISTINCT address FROM audit WHERE action = 'openWallFailed'");
    expect(rows.map(({ address }) => address)).toEqual(expect.arrayContaining(['192.0.2.1', '192.0.2.3']));
  });
});

it('takes no account for a display that is more than one', async () => {
  const { displays } = (await charge.get(LIST)).body as { displays: WallDisplay[] };
  const ids = displays.map(({ id }) => id);
  // one that a manager made with a password is listed too, and can be revoked
  expect(ids).toContain(hospital.accounts.wall);
  expect(ids).not.toContain(hospital.accounts.nurse);
  expect((await charge.post(`${LIST}/${hospital.accounts.nurse}/revoke`)).status).toBe(404);
  expect((await (await hospital.signedIn('nurse')).get('/api/session')).status).toBe(200);
});

it('writes down who made, opened, renewed and revoked it', async () => {
  const { made } = await opened('Kitchen');
  await charge.post(`${LIST}/${made.id}/renew`);
  await charge.post(`${LIST}/${made.id}/revoke`);
  const { rows } = await hospital.pool.query(
    `SELECT action, account_id, detail FROM audit
     WHERE account_id = $1 OR detail->>'display' = $1::text ORDER BY at, action`,
    [made.id],
  );
  expect(rows.map(({ action, account_id }) => [action, account_id])).toEqual([
    ['madeWall', hospital.accounts.charge],
    ['openedWall', made.id],
    ['renewedWall', hospital.accounts.charge],
    ['revokedWall', hospital.accounts.charge],
  ]);
});

it('gets no name of a patient in any byte: neither in the rows, nor on the stream, nor in a refusal', async () => {
  const { made, device } = await opened('Bytes');
  const paths = ['/api/session', '/api/wards/kestrel', '/api/wards/kestrel/wall', `/api/patients/${patientId}/bedside`];
  const refused = ['/api/wards/kestrel/board', '/api/wards/kestrel/patients?search=Trev', '/api/wards/kestrel/beds'];
  let bytes = '';
  for (const path of [...paths, ...refused]) bytes += (await device.get(path)).text;

  const stream = await streamOf(device);
  bytes += await stream.read('event: beat');
  const another = await admitted(charge, 'kestrel', '2', 'Oyelaran');
  bytes += await stream.read('event: rows');
  stream.leave();

  expect(bytes).toContain('T. ');
  for (const name of ['trevanion', 'oyelaran', patientId, another]) expect(bytes.toLowerCase()).not.toContain(name);
  // that it looks, is seen
  expect((await listed(made.id)).lastSeenAt).toEqual(expect.any(Number));
});
