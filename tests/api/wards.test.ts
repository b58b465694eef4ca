import { brotliDecompressSync, gunzipSync } from 'node:zlib';
import { DEFAULT_SETTINGS } from '@slackwater/domain';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { admitted, type Browser, boardAt, draft, type Hospital, openHospital, send } from './hospital.ts';

let hospital: Hospital;
let nurse: Browser;
let charge: Browser;
let patientId: string;

beforeAll(async () => {
  hospital = await openHospital();
  nurse = await hospital.signedIn('nurse');
  charge = await hospital.signedIn('charge');
  patientId = await admitted(charge, 'kestrel', '2', 'Gentian');
});
afterAll(() => hospital.close());

describe('a ward', () => {
  it('says what it is, what it has set, and who works there', async () => {
    const { body } = await nurse.get('/api/wards/kestrel');
    expect(body).toMatchObject({
      id: 'kestrel',
      name: 'Kestrel Ward',
      hospital: 'Alder Point Hospital',
      zone: 'Europe/London',
      policy: { version: 1, settings: DEFAULT_SETTINGS, shiftStarts: ['07:00', '19:00'] },
      demonstration: null,
    });
    const staff = body.staff.map(({ name, role }: { name: string; role: string }) => `${name}: ${role}`);
    expect(staff).toEqual([
      'Name of charge: chargeNurse',
      'Name of nurse: nurse',
      'Name of other-nurse: nurse',
      'Name of physician: nephrologist',
    ]);
  });

  it('lists the other wards with the beds that are free there, for a transfer', async () => {
    const merlin = await hospital.signedIn('merlin-charge');
    const { status, body } = await merlin.get('/api/wards/merlin/others');
    expect(status).toBe(200);
    expect(body).toEqual({ wards: [{ id: 'kestrel', name: 'Kestrel Ward', freeBeds: ['1', '3', '4'] }] });
  });

  it('tells a wall display nobody’s name', async () => {
    const wall = await hospital.signedIn('wall');
    const ward = await wall.get('/api/wards/kestrel');
    expect(ward).toMatchObject({ status: 200, body: { name: 'Kestrel Ward', staff: [] } });
    const board = await wall.get('/api/wards/kestrel/wall');
    expect(board.body.rows).toHaveLength(1);
    expect(board.body.rows[0]).toMatchObject({ bed: '2', initials: 'G. A.' });
    expect(board.text).not.toMatch(/Gentian|Ada|1950/);
  });

  it('lists its beds in order, with who lies in them', async () => {
    const { body } = await nurse.get('/api/wards/kestrel/beds');
    expect(body.beds).toEqual([
      { bed: '1', patientId: null },
      { bed: '2', patientId },
      { bed: '3', patientId: null },
      { bed: '4', patientId: null },
    ]);
  });

  it('is opened by a manager, once, in a zone that exists', async () => {
    const manager = await hospital.signedIn('manager');
    const ward = {
      id: 'heron',
      name: 'Heron Ward',
      zone: 'America/New_York',
      shiftStarts: ['08:00'],
      beds: ['A1', 'A2'],
    };
    expect(await manager.post('/api/wards', { ...ward, zone: 'Mars/Olympus' })).toMatchObject({
      status: 400,
      body: { errors: [{ field: 'zone', value: 'Mars/Olympus' }] },
    });
    expect((await manager.post('/api/wards', ward)).status).toBe(201);
    expect(await manager.post('/api/wards', ward)).toMatchObject({ status: 409, body: { code: 'taken' } });
    const { body } = await manager.get('/api/wards/heron/beds');
    expect(body.beds.map(({ bed }: { bed: string }) => bed)).toEqual(['A1', 'A2']);
    expect((await manager.get('/api/wards/heron/board')).body).toMatchObject({ position: 0, rows: [] });
  });
});

describe('the board', () => {
  it('is not sent again while nothing changes', async () => {
    const first = await nurse.get('/api/wards/kestrel/board');
    const etag = String(first.headers.etag);
    const again = await nurse.get('/api/wards/kestrel/board', { 'if-none-match': etag });
    expect(again).toMatchObject({ status: 304, text: '' });
    expect(again.headers.etag).toBe(etag);

    const weight = draft('weight', { weightKg: 70, cavity: 'empty' }, { patientId });
    const { body } = await send(nurse, 'kestrel', weight);
    const later = await boardAt(nurse, 'kestrel', body.position);
    expect(later.headers.etag).not.toBe(etag);
    const delta = await nurse.get(`/api/wards/kestrel/board?since=${first.body.position}`);
    expect(delta.body).toMatchObject({
      from: first.body.position,
      to: body.position,
      epoch: first.body.epoch,
      gone: [],
    });
    expect((await nurse.get('/api/wards/kestrel/board', { 'if-none-match': etag })).status).toBe(200);
  });

  it('is the same in every encoding', async () => {
    const plain = await nurse.get('/api/wards/kestrel/board');
    for (const [encoding, unpack] of [
      ['gzip', gunzipSync],
      ['br', brotliDecompressSync],
    ] as const) {
      const { headers, rawPayload } = await hospital.app.inject({
        url: '/api/wards/kestrel/board',
        cookies: nurse.cookies,
        headers: { 'accept-encoding': encoding },
      });
      expect(headers['content-encoding']).toBe(encoding);
      expect(headers.vary).toBe('accept-encoding');
      expect(unpack(rawPayload).toString()).toBe(plain.text);
    }
  });

  it('is kept by nobody in between', async () => {
    const { headers } = await nurse.get('/api/wards/kestrel/board');
    expect(headers['cache-control']).toBe('private, no-cache');
    expect((await nurse.get('/api/wards/kestrel/beds')).headers['cache-control']).toBe('no-store');
  });
});
