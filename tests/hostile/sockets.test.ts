// What only a real connection shows: requests that share one.
import { Agent, request } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { type Browser, type Hospital, openHospital } from '../api/hospital.ts';

let hospital: Hospital;
let manager: Browser;
let port: number;
const oneConnection = new Agent({ keepAlive: true, maxSockets: 1 });
beforeAll(async () => {
  hospital = await openHospital();
  manager = await hospital.signedIn('manager');
  await hospital.app.listen({ port: 0, host: '127.0.0.1' });
  port = (hospital.app.server.address() as AddressInfo).port;
});
afterAll(async () => {
  oneConnection.destroy();
  await hospital.close();
});

function send(method: string, path: string, body?: string): Promise<number | undefined> {
  const cookie = Object.entries(manager.cookies)
    .map((pair) => pair.join('='))
    .join('; ');
  const headers = { cookie, ...(body === undefined ? {} : { 'content-type': 'text/csv' }) };
  return new Promise((resolve, reject) => {
    const sending = request({ port, host: '127.0.0.1', agent: oneConnection, method, path, headers }, (answer) => {
      answer.resume().on('end', () => resolve(answer.statusCode));
    });
    sending.on('error', reject);
    sending.end(body);
  });
}

it('a flow sheet that is refused midway leaves the connection to the next request', async () => {
  const sheet = `ward,hospital_number\n${'x'.repeat(6_000_000)}`;
  expect(await send('POST', '/api/wards/kestrel/import', sheet)).toBe(400);
  expect(await send('GET', '/api/health')).toBe(200);
});
