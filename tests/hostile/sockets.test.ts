// What only a real connection shows: requests that share one.
import { once } from 'node:events';
import { Agent, request } from 'node:http';
import { type AddressInfo, connect, type Socket } from 'node:net';
import { setTimeout } from 'node:timers/promises';
import pg from 'pg';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { admitted, type Browser, cookieOf, type Hospital, openHospital, PASSWORD } from '../api/hospital.ts';

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
  const headers = { cookie: cookieOf(manager), ...(body === undefined ? {} : { 'content-type': 'text/csv' }) };
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

/** A connection on which bytes are written as they are. */
function open(bytes: string): { socket: Socket; heard: () => string } {
  const socket = connect(port, '127.0.0.1')
    .setEncoding('utf8')
    .on('error', () => {});
  let text = '';
  socket.on('data', (more: string) => {
    text += more;
  });
  socket.write(bytes);
  return { socket, heard: () => text };
}

const openStream = (of: Browser, before = '') =>
  open(`${before}GET /api/wards/kestrel/stream HTTP/1.1\r\nHost: 127.0.0.1\r\nCookie: ${cookieOf(of)}\r\n\r\n`);

it('what is no HTTP is answered, and its connection given up although the client never closes its own half', async () => {
  const arrived = once(hospital.app.server, 'connection') as Promise<[Socket]>;
  const client = connect({ port, host: '127.0.0.1', allowHalfOpen: true }).on('error', () => {});
  client.resume().write('hello there\r\n\r\n');
  const [served] = await arrived;
  if (!served.closed) await once(served, 'close');
  client.destroy();
});

it('a body that never comes to its end is not waited for for ever, nor is a head', () => {
  // minutes pass before it shows: what is looked at is that the framework's own "never" is not left standing
  expect(hospital.app.server.requestTimeout).toBe(900_000);
  expect(hospital.app.server.headersTimeout).toBe(60_000);
});

/** Waits until something holds; the test's own time limit says when it never does. */
async function until(holds: () => boolean | Promise<boolean>): Promise<void> {
  while (!(await holds())) await setTimeout(10);
}

// RFC 9112, section 9.3.2: a client may send further requests before it has the answer to the first
it('a stream asked for behind an answer that is not through waits for it, and nobody else’s goes silent', async () => {
  const charge = await hospital.signedIn('charge');
  const other = openStream(await hospital.signedIn('nurse'));
  await until(() => other.heard().includes('event: beat'));

  const body = JSON.stringify({ login: 'other-nurse', password: PASSWORD });
  const signIn = `POST /api/sign-in HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Type: application/json\r\nContent-Length: ${body.length}\r\n\r\n${body}`;
  const behind = openStream(charge, signIn);
  await until(() => behind.heard().includes('event: beat'));
  const later = openStream(charge);
  await until(() => later.heard().includes('event: beat'));

  await admitted(charge, 'kestrel', '1');
  for (const { heard, socket } of [other, behind, later]) {
    await until(() => heard().includes('event: rows'));
    socket.destroy();
  }
  await until(() => hospital.live.status().streams === 0);
});

it('a stream whose browser is gone before the look is noted is not kept', async () => {
  const nurse = await hospital.signedIn('nurse');
  const blocking = new pg.Client({ connectionString: hospital.database.ownerUrl });
  await blocking.connect();
  try {
    await blocking.query('BEGIN; LOCK TABLE audit IN SHARE ROW EXCLUSIVE MODE');
    const waiting = `SELECT FROM pg_locks WHERE NOT granted AND relation = 'audit'::regclass`;
    const arrived = once(hospital.app.server, 'connection') as Promise<[Socket]>;
    const gone = openStream(nurse);
    const [served] = await arrived;
    await until(async () => (await hospital.pool.query(waiting)).rowCount === 1);
    gone.socket.destroy();
    if (!served.closed) await once(served, 'close');
  } finally {
    await blocking.end();
  }
  const stays = openStream(nurse);
  await until(() => stays.heard().includes('event: beat'));
  expect(hospital.live.status().streams).toBe(1);
  stays.socket.destroy();
});
