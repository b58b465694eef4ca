import { type AddressInfo, connect } from 'node:net';
import { text } from 'node:stream/consumers';
import { problemDocument } from '@slackwater/contract';
import request from 'supertest';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Hospital, openHospital, PASSWORD } from './hospital.ts';

let hospital: Hospital;
beforeAll(async () => {
  hospital = await openHospital();
});
afterAll(() => hospital.close());

test('over a socket, health is told to everybody without detail', async () => {
  await request(hospital.app.server).get('/api/health').expect(200, { status: 'live' });
});

test('over a socket, an address that does not exist is a problem document', async () => {
  const answer = await request(hospital.app.server).get('/api/nowhere');
  expect(answer.status).toBeGreaterThanOrEqual(400);
  expect(answer.headers['content-type']).toMatch(/^application\/problem\+json/);
});

test.each([
  ['no HTTP', 'hello there\r\n\r\n', 400, 'invalid'],
  ['a method of its own', 'BREW /api/health HTTP/1.1\r\nhost: here\r\n\r\n', 400, 'invalid'],
  ['a head too large', `GET /api/health HTTP/1.1\r\nhost: here\r\nx: ${'a'.repeat(20_000)}\r\n\r\n`, 431, 'tooLarge'],
])('over a socket, %s is a problem document too', async (_, bytes, status, code) => {
  await hospital.app.listen({ port: 0, host: '127.0.0.1' }).catch(() => undefined);
  const socket = connect((hospital.app.server.address() as AddressInfo).port, '127.0.0.1');
  socket.end(bytes);
  const answer = await text(socket);
  expect(answer).toMatch(new RegExp(`^HTTP/1\\.1 ${status} .*\r\ncontent-type: application/problem\\+json`));
  const document = JSON.parse(answer.split('\r\n\r\n')[1]!);
  expect(document).toMatchObject({ code, status, errors: [] });
  expect(problemDocument.safeParse(document).error).toBeUndefined();
});

test('over a socket, a signed-in nurse reads the board, and reads it again for nothing while nothing changes', async () => {
  const agent = request.agent(hospital.app.server);
  await agent.post('/api/sign-in').send({ login: 'nurse', password: PASSWORD }).expect(200);
  const first = await agent.get('/api/wards/kestrel/board').expect(200);
  expect(first.body).toMatchObject({ wardId: 'kestrel' });
  await agent.get('/api/wards/kestrel/board').set('if-none-match', String(first.headers.etag)).expect(304);
});
