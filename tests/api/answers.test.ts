// What the API's description says of its answers, held against the answers of a whole ward at work.
import { type App, buildApp } from '@slackwater/api/app';
import { DEMONSTRATION_PASSWORD } from '@slackwater/api/demo/accounts';
import { loadScenario } from '@slackwater/api/demo/scenario';
import { seedDemonstration } from '@slackwater/api/demo/seed';
import {
  alertMeasuresView,
  auditPage,
  bedsideView,
  bedsView,
  boardAnswer,
  clearedAlertsView,
  drainLearningView,
  entriesAnswer,
  entryPage,
  healthAnswer,
  hooksView,
  keptAnswer,
  patientsView,
  prescriptionsView,
  roundsView,
  wallAnswer,
  wardView,
} from '@slackwater/contract';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { z } from 'zod';
import { type FreshDatabase, freshDatabase } from '../support/database.ts';
import { draft } from './hospital.ts';

let database: FreshDatabase;
let app: App;
let patients: string[];
const cookies: Record<string, string> = {};

beforeAll(async () => {
  database = await freshDatabase();
  const site = { id: 'alder-point', name: 'Alder Point Hospital' };
  const options = { siteId: site.id, https: false, boardFolder: null, build: 'test', watchAlarms: false };
  app = await buildApp({ databaseUrl: database.appUrl, ...options });
  await seedDemonstration(app.pool, site, await loadScenario());
  await signIn('adair');
  await signIn('whitlock');
  const { beds } = JSON.parse(await get('adair', '/api/wards/kestrel/beds'));
  patients = beds.flatMap(({ patientId }: { patientId: string | null }) => patientId ?? []);
});
afterAll(async () => {
  await app.close();
  await database.drop();
});

async function signIn(login: string) {
  const payload = { login, password: DEMONSTRATION_PASSWORD };
  const { cookies: set } = await app.server.inject({ method: 'POST', url: '/api/sign-in', payload });
  cookies[login] = set.map(({ name, value }) => `${name}=${value}`).join('; ');
}

async function get(login: string, url: string): Promise<string> {
  const { statusCode, body } = await app.server.inject({ url, headers: { cookie: cookies[login]! } });
  expect(statusCode, url).toBe(200);
  return body;
}

async function expectDescribed(schema: z.ZodType, login: string, url: string) {
  const { error } = schema.safeParse(JSON.parse(await get(login, url)));
  expect(error?.issues ?? [], url).toEqual([]);
}

test('of every patient: bedside, rounds, prescriptions', async () => {
  expect(patients).toHaveLength(24);
  for (const id of patients) {
    await expectDescribed(bedsideView, 'adair', `/api/patients/${id}/bedside`);
    await expectDescribed(roundsView, 'adair', `/api/patients/${id}/rounds`);
    await expectDescribed(prescriptionsView, 'adair', `/api/patients/${id}/prescriptions`);
    await expectDescribed(entryPage, 'adair', `/api/patients/${id}/entries?limit=200`);
    await expectDescribed(drainLearningView, 'adair', `/api/patients/${id}/drain-learning`);
  }
});

test('of the ward and the hospital: beds, a search, the audit', async () => {
  for (const query of ['', '?since=0', '?since=999999']) {
    await expectDescribed(boardAnswer, 'adair', `/api/wards/kestrel/board${query}`);
    await expectDescribed(wallAnswer, 'adair', `/api/wards/kestrel/wall${query}`);
  }
  await expectDescribed(wardView, 'adair', '/api/wards/kestrel');
  await expectDescribed(healthAnswer, 'adair', '/api/health');
  await expectDescribed(keptAnswer, 'adair', '/api/kept');
  await expectDescribed(keptAnswer, 'adair', '/api/wards/kestrel/kept');
  await expectDescribed(bedsView, 'adair', '/api/wards/kestrel/beds');
  await expectDescribed(patientsView, 'adair', '/api/wards/kestrel/patients?search=AP');
  await expectDescribed(auditPage, 'whitlock', '/api/audit');
});

test('of alerts: what was cleared, what they come to, who is told', async () => {
  await expectDescribed(alertMeasuresView, 'adair', '/api/wards/kestrel/alerts/measures?hours=24');
  await expectDescribed(clearedAlertsView, 'adair', '/api/wards/kestrel/alerts/cleared');
  await expectDescribed(hooksView, 'whitlock', '/api/hooks');
});

test('of an entry that is written', async () => {
  const entry = draft('weight', { weightKg: 70, cavity: 'full' }, { patientId: patients[0]! });
  const answer = await app.server.inject({
    method: 'POST',
    url: '/api/entries',
    headers: { cookie: cookies.adair! },
    payload: { wardId: 'kestrel', deviceAt: Date.now(), entries: [entry] },
  });
  expect(entriesAnswer.safeParse(answer.json()).error?.issues ?? []).toEqual([]);
});
