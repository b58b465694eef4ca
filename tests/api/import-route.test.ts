import { request } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { admitted, type Hospital, openHospital } from './hospital.ts';
import { sheetOf } from './import-ward.ts';

let hospital: Hospital;
let number: string;
beforeAll(async () => {
  hospital = await openHospital();
  const id = await admitted(await hospital.signedIn('charge'), 'kestrel', '1');
  number = (await hospital.pool.query('SELECT hospital_number FROM patient WHERE id = $1', [id])).rows[0]
    .hospital_number;
});
afterAll(() => hospital.close());
beforeAll(() => hospital.app.listen({ port: 0, host: '127.0.0.1' }));

const CSV = { 'content-type': 'text/csv' };
const path = '/api/wards/kestrel/import';
const row = (drainedMl: string, ward = 'kestrel', date = '2026-10-05') =>
  `${ward},${number},${date}T08:00Z,${date}T08:20Z,${drainedMl},clear,,,,,`;

it('takes a sheet from a manager, under the manager’s name, and notes it in the audit', async () => {
  const manager = await hospital.signedIn('manager');
  const { status, body } = await manager.post(path, sheetOf(row('2100')), CSV);
  expect([status, body]).toEqual([200, { rows: 1, added: 1, known: 0, patients: 1 }]);
  const { rows } = await hospital.pool.query(`SELECT author_id FROM entry WHERE kind = 'imported'`);
  expect(rows).toEqual([{ author_id: hospital.accounts.manager }]);
  const audit = await hospital.pool.query(`SELECT account_id, ward_id, detail FROM audit WHERE action = 'imported'`);
  expect(audit.rows).toEqual([
    { account_id: hospital.accounts.manager, ward_id: 'kestrel', detail: { rows: 1, added: 1, known: 0, patients: 1 } },
  ]);
});

it('answers the same sheet once more without a change', async () => {
  const { body } = await (await hospital.signedIn('manager')).post(path, sheetOf(row('2100')), CSV);
  expect(body).toEqual({ rows: 1, added: 0, known: 1, patients: 0 });
});

it('lists bad rows as problem details, by line and column, with value and range', async () => {
  const manager = await hospital.signedIn('manager');
  const { status, body } = await manager.post(path, sheetOf(row('9999'), row('2100', 'merlin', '2026-10-06')), CSV);
  expect([status, body.code, body.detail]).toEqual([422, 'refused', '2 of 2 rows are bad. Nothing was imported.']);
  expect(body.errors).toMatchObject([
    { field: 'line 2, drained_ml', value: '9999', allowed: '0 to 6000 mL, digits only; empty = not measured' },
    { field: 'line 3, ward', value: 'merlin', allowed: 'kestrel' },
  ]);
});

it.each([
  ['what is no sheet', 'a,b\n1,2\n', CSV, 400],
  ['nothing', '', CSV, 400],
  ['another kind of content', '<table/>', { 'content-type': 'text/html' }, 415],
])('refuses %s', async (_, sheet, headers, status) => {
  expect((await (await hospital.signedIn('manager')).post(path, sheet, headers)).status).toBe(status);
});

it('reads a sheet on no other route', async () => {
  const charge = await hospital.signedIn('charge');
  expect((await charge.post('/api/entries', sheetOf(), CSV)).status).toBe(415);
});

/** Its address, and the manager's cookie, for what goes over a socket. */
async function overSocket() {
  const { port } = hospital.app.server.address() as AddressInfo;
  const { cookies } = await hospital.signedIn('manager');
  const cookie = Object.entries(cookies)
    .map(([name, value]) => `${name}=${value}`)
    .join('; ');
  const origin = `http://127.0.0.1:${port}`;
  return { url: origin + path, headers: { ...CSV, cookie, origin } };
}

it('answers what is wrong with the first line while the rest of a large file is still on its way', async () => {
  const { url, headers } = await overSocket();
  const body = `a,b\n${'1,2\n'.repeat(2_000_000)}`;
  const response = await fetch(url, { method: 'POST', headers, body });
  expect(response.status).toBe(400);
  expect((await response.json()).detail).toMatch(/^Line 1 lacks ward/);
});

it('lets two sheets come in at once, however slowly: the bedsides keep their connections', async () => {
  const { url, headers } = await overSocket();
  const manager = await hospital.signedIn('manager');
  const again = () => manager.post(path, sheetOf(row('2100')), CSV);
  const held = [1, 2].map(() => {
    const sending = request(url, { method: 'POST', headers });
    sending.on('error', () => undefined);
    sending.write(sheetOf(row('2100')));
    return sending;
  });
  // One is read, the other waits for it: imports come in one after the other.
  const comingIn = `SELECT FROM pg_stat_activity WHERE datname = current_database() AND state = 'active'
    AND (query LIKE 'COPY import_row%' OR wait_event = 'advisory')`;
  await expect.poll(async () => (await hospital.pool.query(comingIn)).rowCount, { timeout: 20_000 }).toBe(2);
  expect((await again()).status).toBe(503);
  const { headers: said, body } = await again();
  expect([said['retry-after'], body.detail]).toEqual(['10', expect.stringContaining('2 other flow sheets')]);
  expect((await manager.get('/api/accounts')).status).toBe(200);
  for (const sending of held) sending.destroy();
  await expect.poll(async () => (await again()).status, { timeout: 20_000 }).toBe(200);
});
