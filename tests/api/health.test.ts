import { afterAll, beforeAll, expect, it } from 'vitest';
import { type Hospital, openHospital } from './hospital.ts';

let hospital: Hospital;
beforeAll(async () => {
  hospital = await openHospital();
});
afterAll(() => hospital.close());

it('tells strangers that the process lives, and nothing more', async () => {
  const { status, body } = await hospital.browser().get('/api/health');
  expect(status).toBe(200);
  expect(body).toEqual({ status: 'live' });
});

it('tells the signed in what stands behind it', async () => {
  const { body } = await (await hospital.signedIn('nurse')).get('/api/health');
  expect(body).toMatchObject({
    status: 'ready',
    build: 'test',
    node: process.versions.node,
    migrations: { waiting: 0 },
  });
  expect(body.postgres).toMatch(/^18\./);
  expect(body.timeZoneData).toMatch(/^\d{4}[a-z]$/);
  expect(body.epoch).toMatch(/^[0-9a-f-]{36}$/);
});
