// What boards do over HTTP/2, which a server with a certificate speaks (here without one: what carries it is the same).
import { type ClientHttp2Session, type ClientHttp2Stream, connect, constants, type Settings } from 'node:http2';
import type { AddressInfo } from 'node:net';
import { setTimeout } from 'node:timers/promises';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { admitted, type Browser, cookieOf, type Hospital, openHospital } from '../api/hospital.ts';

let hospital: Hospital;
let charge: Browser;
let isOpen = false;
const sessions: ClientHttp2Session[] = [];
beforeAll(async () => {
  hospital = await openHospital({ http2: true });
  isOpen = true;
  charge = await hospital.signedIn('charge');
  await hospital.app.listen({ port: 0, host: '127.0.0.1' });
});
afterAll(async () => {
  for (const session of sessions) session.destroy();
  if (isOpen) await hospital.close();
});

function connected(settings: Settings = {}): ClientHttp2Session {
  const { port } = hospital.app.server.address() as AddressInfo;
  const session = connect(`http://127.0.0.1:${port}`, { settings }).on('error', () => {});
  sessions.push(session);
  return session;
}

function openStream(session: ClientHttp2Session): { stream: ClientHttp2Stream; heard: () => string } {
  const stream = session.request({ ':path': '/api/wards/kestrel/stream', cookie: cookieOf(charge) });
  let text = '';
  stream.setEncoding('utf8').on('data', (more: string) => {
    text += more;
  });
  return { stream: stream.on('error', () => {}), heard: () => text };
}

/** Waits until something holds; the test's own time limit says when it never does. */
async function until(holds: () => boolean): Promise<void> {
  while (!holds()) await setTimeout(10);
}

it('streams of one connection get each event, and are let go one by one', async () => {
  const session = connected();
  const [one, other] = [openStream(session), openStream(session)];
  await until(() => one.heard().includes('event: beat') && other.heard().includes('event: beat'));
  one.stream.close(constants.NGHTTP2_CANCEL);
  await until(() => hospital.live.status().streams === 1);
  await admitted(charge, 'kestrel', '1');
  await until(() => other.heard().includes('event: rows'));
  expect(one.heard()).not.toContain('event: rows');
});

// RFC 9113, section 5.2: a receiver says how much it takes, which may be nothing
it('a board that takes nothing, as a tablet asleep, does not keep the server from closing', async () => {
  const others = hospital.live.status().streams;
  openStream(connected({ initialWindowSize: 0 }));
  await until(() => hospital.live.status().streams === others + 1);
  await hospital.close();
  isOpen = false;
});
