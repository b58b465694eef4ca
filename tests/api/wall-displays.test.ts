import { randomUUID } from 'node:crypto';
import type { MadeWallDisplay, WallDisplay } from '@slackwater/contract';
import { HOUR_MS } from '@slackwater/domain';
import pg from 'pg';
import { afterAll, beforeAll, expect, it } from 'vitest';
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

it('takes no account for a display that is more than one', async () => {
  const { displays } = (await charge.get(LIST)).body as { displays: WallDisplay[] };
  const ids = displays.map(({ id }) => id);
  // one that a manager made with a password is listed too, and can be revoked
  expect(ids).toContain(hospital.accounts.wall);
  expect(ids).not.toContain(hospital.accounts.nurse);
  expect((await charge.post(`${LIST}/${hospital.accounts.nurse}/revoke`)).status).toBe(404);
  expect((await (await hospital.signedIn('nurse')).get('/api/session')).status).toBe(200);
});

it('writes down who made, opened and revoked it', async () => {
  const { made } = await opened('Kitchen');
  await charge.post(`${LIST}/${made.id}/revoke`);
  const { rows } = await hospital.pool.query(
    `SELECT action, account_id, detail FROM audit
     WHERE account_id = $1 OR detail->>'display' = $1::text ORDER BY at, action`,
    [made.id],
  );
  expect(rows.map(({ action, account_id }) => [action, account_id])).toEqual([
    ['madeWall', hospital.accounts.charge],
    ['openedWall', made.id],
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
