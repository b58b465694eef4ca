import { randomUUID } from 'node:crypto';
import { hashPassword } from '@slackwater/api/access/password';
import { NO_HOOKS } from '@slackwater/api/alarms/hooks/hook';
import { buildApp } from '@slackwater/api/app';
import { openSite, openWard } from '@slackwater/api/record/open-ward';
import {
  type Draft,
  type EntryKind,
  type PatientIdentity,
  type Payloads,
  type Role,
  STANDARD_FORMULARY,
} from '@slackwater/domain';
import type { FastifyInstance, FastifyServerOptions, InjectOptions } from 'fastify';
import type pg from 'pg';
import { vi } from 'vitest';
import { freshDatabase } from '../support/database.ts';

export const SITE = 'alder-point';
export const PASSWORD = 'a password for tests';

type Who = { login: string; manager?: boolean; roles?: Partial<Record<'kestrel' | 'merlin', Role>> };

/** One of each role on Kestrel Ward, a nurse of Merlin Ward only, and somebody with no ward at all. */
const STAFF: readonly Who[] = [
  { login: 'nurse', roles: { kestrel: 'nurse' } },
  { login: 'other-nurse', roles: { kestrel: 'nurse' } },
  { login: 'charge', roles: { kestrel: 'chargeNurse' } },
  { login: 'physician', roles: { kestrel: 'nephrologist' } },
  { login: 'manager', manager: true },
  { login: 'wall', roles: { kestrel: 'wall' } },
  { login: 'merlin-nurse', roles: { merlin: 'nurse' } },
  { login: 'merlin-charge', roles: { merlin: 'chargeNurse' } },
  { login: 'nobody' },
];

export type Hospital = Awaited<ReturnType<typeof openHospital>>;

/** A hospital of two wards on a database of its own, with its API, as one process serves it. */
export async function openHospital({ https = false, http2 = false, beds = 4, hooks = NO_HOOKS } = {}) {
  const database = await freshDatabase();
  const app = await buildApp({
    databaseUrl: database.appUrl,
    siteId: SITE,
    https,
    boardFolder: null,
    build: 'test',
    fastify: {
      logger: false,
      trustProxy: https,
      ...(http2 && { http2, forceCloseConnections: false }),
    } as FastifyServerOptions,
    watchAlarms: false,
    hooks,
  });
  await openSite(app.pool, { id: SITE, name: 'Alder Point Hospital' }, STANDARD_FORMULARY);
  for (const [id, name] of [
    ['kestrel', 'Kestrel Ward'],
    ['merlin', 'Merlin Ward'],
  ] as const) {
    const names = Array.from({ length: beds }, (_, index) => String(index + 1));
    const hours = { zone: 'Europe/London', shiftStarts: ['07:00', '19:00'] };
    await openWard(app.pool, { siteId: SITE, id, name, ...hours, beds: names });
  }
  const accounts = await addStaff(app.pool);
  await app.server.ready();
  return {
    app: app.server,
    pool: app.pool,
    access: app.access,
    live: app.live,
    accounts,
    database,
    browser: (address?: string) => openBrowser(app.server, address),
    /** A browser in which this person has signed in. */
    async signedIn(login: string) {
      const browser = openBrowser(app.server);
      const { status } = await browser.post('/api/sign-in', { login, password: PASSWORD });
      if (status !== 200) throw new Error(`${login} could not sign in: ${status}`);
      return browser;
    },
    async close() {
      await app.close();
      await database.drop();
    },
  };
}

async function addStaff(pool: pg.Pool): Promise<Record<string, string>> {
  const hash = await hashPassword(PASSWORD);
  const ids: Record<string, string> = {};
  for (const { login, manager = false, roles = {} } of STAFF) {
    const id = randomUUID();
    ids[login] = id;
    await pool.query(
      `INSERT INTO account (site_id, id, login, name, password_hash, password_changed_at, manager, created_at)
       VALUES ($1, $2, $3, $4, $5, now(), $6, now())`,
      [SITE, id, login, `Name of ${login}`, hash, manager],
    );
    for (const [ward, role] of Object.entries(roles)) {
      await pool.query('INSERT INTO account_role VALUES ($1, $2, $3, $4)', [SITE, id, ward, role]);
    }
  }
  return ids;
}

// biome-ignore lint/suspicious/noExplicitAny: a test looks at answers of any form
export type Answer = { status: number; headers: Record<string, unknown>; body: any; text: string };
export type Browser = ReturnType<typeof openBrowser>;

/** The header that this browser sends. */
export const cookieOf = ({ cookies }: Browser) =>
  Object.entries(cookies)
    .map((pair) => pair.join('='))
    .join('; ');

/** Keeps cookies as a browser does. */
function openBrowser(app: FastifyInstance, remoteAddress = '127.0.0.1') {
  const cookies: Record<string, string> = {};
  async function send(method: string, url: string, payload?: unknown, headers: Record<string, string> = {}) {
    const options = {
      method,
      url,
      cookies,
      headers,
      remoteAddress,
      ...(payload === undefined ? {} : { payload }),
    } as InjectOptions;
    const response = await app.inject(options);
    for (const { name, value } of response.cookies) {
      if (value === '') delete cookies[name];
      else cookies[name] = value;
    }
    const isJson = String(response.headers['content-type']).includes('json');
    const answer: Answer = {
      status: response.statusCode,
      headers: response.headers,
      body: isJson && response.body !== '' ? JSON.parse(response.body) : null,
      text: response.body,
    };
    return answer;
  }
  return {
    cookies,
    send,
    get: (url: string, headers?: Record<string, string>) => send('GET', url, undefined, headers),
    post: (url: string, payload?: unknown, headers?: Record<string, string>) => send('POST', url, payload, headers),
    patch: (url: string, payload: unknown) => send('PATCH', url, payload),
  };
}

/** What is prepared for a drain without a bag. */
export const DRAIN_ONLY = {
  purpose: 'drainOnly',
  identifiers: ['name', 'dateOfBirth'],
  bag: null,
  revisionId: null,
  itemId: null,
  orderId: null,
  bagChecks: null,
  override: null,
} as const satisfies Payloads['prepare'];

/** An entry as its author's device writes it. */
export const draft = <K extends EntryKind>(
  kind: K,
  payload: Payloads[K],
  rest: { patientId: string | null; id?: string; visitId?: string; after?: string | null; happenedAt?: number },
) =>
  ({
    id: randomUUID(),
    kind,
    format: 1,
    payload,
    visitId: null,
    happenedAt: Date.now(),
    after: null,
    ...rest,
  }) as unknown as Draft<K>;

export const identity = (family: string, given = 'Ada'): PatientIdentity => {
  const id: string = randomUUID();
  const hospitalNumber = `H-${id.slice(0, 8)}`;
  const born = { dateOfBirth: '1950-02-28', gender: 'female' };
  return { id, family, given, ...born, hospitalNumber, allergy: null, isolation: null, cautions: [] };
};

/** Admits an invented patient with an empty cavity. @returns the patient's id */
export async function admitted(browser: Browser, wardId: string, bed: string, family = 'Fennel'): Promise<string> {
  const patient = identity(family);
  const admission = draft(
    'admitted',
    { bed, inside: { cavity: 'empty' }, dialysis: 'chronic' },
    { patientId: patient.id },
  );
  const answer = await browser.post('/api/patients', { identity: patient, wardId, deviceAt: Date.now(), admission });
  if (answer.status !== 201) throw new Error(`not admitted: ${answer.text}`);
  return patient.id;
}

/** The ward's board once this process has heard of a position: notices come a moment after the answer. */
export const boardAt = (browser: Browser, wardId: string, position: number): Promise<Answer> =>
  vi.waitFor(async () => {
    const board = await browser.get(`/api/wards/${wardId}/board`);
    if (board.body.position < position)
      throw new Error(`The board is at ${board.body.position}, not yet at ${position}.`);
    return board;
  }, 10_000);

/** Sends entries of one patient. */
export const send = (browser: Browser, wardId: string, ...entries: Draft[]) =>
  browser.post('/api/entries', { wardId, deviceAt: Date.now(), entries });
