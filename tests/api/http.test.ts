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

test('over a socket, a signed-in nurse reads the board, and reads it again for nothing while nothing changes', async () => {
  const agent = request.agent(hospital.app.server);
  await agent.post('/api/sign-in').send({ login: 'nurse', password: PASSWORD }).expect(200);
  const first = await agent.get('/api/wards/kestrel/board').expect(200);
  expect(first.body).toMatchObject({ wardId: 'kestrel' });
  await agent.get('/api/wards/kestrel/board').set('if-none-match', String(first.headers.etag)).expect(304);
});
