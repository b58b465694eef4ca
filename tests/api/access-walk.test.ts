import { randomUUID } from 'node:crypto';
import { COLUMNS } from '@slackwater/api/modules/import/import.columns';
import { HOUR_MS } from '@slackwater/domain';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { admitted, type Browser, draft, type Hospital, identity, openHospital, PASSWORD } from './hospital.ts';

const PEOPLE = [
  'nurse',
  'charge',
  'physician',
  'manager',
  'wall',
  'merlin-nurse',
  'merlin-charge',
  'nobody',
  'stranger',
] as const;
type Person = (typeof PEOPLE)[number];

type Rule = {
  path?: string;
  body?: (person: Person) => unknown;
  headers?: Record<string, string>;
  /** Who is let in. */
  allowed: readonly Person[];
  /** What everybody else who is signed in gets. */
  refused: (person: Person) => number;
};

const EVERYBODY = PEOPLE;
const SIGNED_IN = PEOPLE.filter((person) => person !== 'stranger');
const READERS: readonly Person[] = ['nurse', 'charge', 'physician', 'manager'];
const ON_KESTREL: readonly Person[] = [...READERS, 'wall'];

/** Whoever has a role on the ward learns that it does not reach; others do not learn that there is anything. */
const notFoundElsewhere = (person: Person) => (ON_KESTREL.includes(person) ? 403 : 404);
const forbidden = () => 403;

let hospital: Hospital;
let patientId: string;
const browsers = new Map<Person, Browser>();

const admission = (): unknown => {
  const patient = identity('Walker');
  const entry = draft(
    'admitted',
    { bed: '4', inside: { cavity: 'empty' }, dialysis: 'chronic' },
    { patientId: patient.id },
  );
  return { identity: patient, wardId: 'kestrel', deviceAt: Date.now(), admission: entry };
};

const weight = () => ({
  wardId: 'kestrel',
  deviceAt: Date.now(),
  entries: [draft('weight', { weightKg: 72, cavity: 'empty' }, { patientId })],
});

/** Kestrel Ward is one's own, the other's, or nobody's; the patient lies there. */
const WALK: Record<string, Rule> = {
  'POST /api/sign-in': {
    body: () => ({ login: 'other-nurse', password: PASSWORD }),
    allowed: EVERYBODY,
    refused: forbidden,
  },
  'GET /api/health': { allowed: EVERYBODY, refused: forbidden },
  'GET /api/session': { allowed: SIGNED_IN, refused: forbidden },
  'POST /api/lock': { allowed: SIGNED_IN, refused: forbidden },
  'POST /api/unlock': { body: () => ({ password: PASSWORD }), allowed: SIGNED_IN, refused: forbidden },
  'POST /api/sign-out': { allowed: SIGNED_IN, refused: forbidden },
  'POST /api/sign-out-everywhere': { allowed: SIGNED_IN, refused: forbidden },
  'POST /api/first-administrator': {
    body: () => ({ token: 'x'.repeat(43), login: 'someone', name: 'Someone', password: PASSWORD }),
    allowed: EVERYBODY,
    refused: forbidden,
  },
  'GET /api/wards/{ward}': { allowed: ON_KESTREL, refused: notFoundElsewhere },
  'GET /api/wards/{ward}/settings': { allowed: READERS, refused: notFoundElsewhere },
  'GET /api/wards/{ward}/beds': { allowed: READERS, refused: notFoundElsewhere },
  'GET /api/wards/{ward}/others': { allowed: ['charge'], refused: notFoundElsewhere },
  'GET /api/wards/{ward}/alerts/cleared': { allowed: READERS, refused: notFoundElsewhere },
  'GET /api/wards/{ward}/alerts/measures': { allowed: READERS, refused: notFoundElsewhere },
  'GET /api/wards/{ward}/board': { allowed: READERS, refused: notFoundElsewhere },
  'GET /api/wards/{ward}/wall': { allowed: ON_KESTREL, refused: notFoundElsewhere },
  'GET /api/wards/{ward}/stream': { allowed: ON_KESTREL, refused: notFoundElsewhere },
  'GET /api/wards/{ward}/lots': {
    path: '/api/wards/kestrel/lots?lot=K1',
    allowed: READERS,
    refused: notFoundElsewhere,
  },
  'GET /api/wards/{ward}/patients': {
    path: '/api/wards/kestrel/patients?search=walker',
    allowed: READERS,
    refused: notFoundElsewhere,
  },
  'GET /api/patients/{id}/bedside': { allowed: READERS, refused: notFoundElsewhere },
  'GET /api/patients/{id}/drain-learning': { allowed: READERS, refused: notFoundElsewhere },
  'GET /api/patients/{id}/entries': { allowed: READERS, refused: notFoundElsewhere },
  'GET /api/patients/{id}/rounds': { allowed: READERS, refused: notFoundElsewhere },
  'GET /api/patients/{id}/prescriptions': { allowed: READERS, refused: notFoundElsewhere },
  'POST /api/patients': { body: admission, allowed: ['charge'], refused: notFoundElsewhere },
  'PATCH /api/patients/{id}': { body: () => ({ gender: 'male' }), allowed: ['charge'], refused: notFoundElsewhere },
  'POST /api/second-person': {
    body: () => ({
      login: 'nobody-here',
      password: PASSWORD,
      wardId: 'kestrel',
      deviceAt: Date.now(),
      entry: draft(
        'additiveChecked',
        { askedId: randomUUID(), looked: [], agrees: true, note: null },
        { patientId, visitId: randomUUID() },
      ),
    }),
    // Whoever is let in learns that no such account has this password.
    allowed: [],
    refused: (person) => (['nurse', 'charge'].includes(person) ? 401 : notFoundElsewhere(person)),
  },
  'POST /api/entries': { body: weight, allowed: ['nurse', 'charge', 'physician'], refused: notFoundElsewhere },
  // Whether the ward exists is not told: what is refused is kept for its author, whoever that is, who records anywhere.
  'POST /api/outbox': {
    body: (person) => ({ ...weight(), authorId: hospital.accounts[person] ?? randomUUID() }),
    allowed: ['nurse', 'charge', 'physician', 'merlin-nurse', 'merlin-charge'],
    refused: forbidden,
  },
  'GET /api/kept': { allowed: SIGNED_IN, refused: forbidden },
  'GET /api/wards/{ward}/kept': { allowed: ['charge'], refused: notFoundElsewhere },
  'POST /api/kept/send': {
    body: (person) => ({
      batchIds: [kept.get(person)!.sendId],
      entries: [kept.get(person)!.amended],
      reason: 'on leave',
    }),
    allowed: ['charge'],
    refused: notFoundElsewhere,
  },
  'POST /api/kept/discard': {
    body: (person) => ({ batchIds: [kept.get(person)!.discardId], reason: 'recorded on paper' }),
    allowed: ['charge'],
    refused: notFoundElsewhere,
  },
  'POST /api/wards/{ward}/import': {
    body: () => `${COLUMNS.join()}\n`,
    headers: { 'content-type': 'text/csv' },
    allowed: ['manager'],
    refused: notFoundElsewhere,
  },
  'GET /api/accounts': { allowed: ['manager'], refused: forbidden },
  'POST /api/accounts': {
    body: (person) => ({
      id: randomUUID(),
      login: `by-${person}`,
      name: 'New',
      password: PASSWORD,
      manager: false,
      roles: [],
    }),
    allowed: ['manager'],
    refused: forbidden,
  },
  'PATCH /api/accounts/{id}': { body: () => ({ name: 'Another Name' }), allowed: ['manager'], refused: forbidden },
  'GET /api/wards/{ward}/wall-displays': { allowed: ['charge', 'manager'], refused: notFoundElsewhere },
  'POST /api/wards/{ward}/wall-displays': {
    body: (person) => ({ id: randomUUID(), name: `Corridor, by ${person}` }),
    allowed: ['charge', 'manager'],
    refused: notFoundElsewhere,
  },
  // Whoever may revoke learns that an account of somebody who works here is no display.
  'POST /api/wards/{ward}/wall-displays/{display}/revoke': {
    allowed: [],
    refused: (person) => (['charge', 'manager'].includes(person) ? 404 : notFoundElsewhere(person)),
  },
  'POST /api/wards/{ward}/wall-displays/{display}/renew': {
    allowed: [],
    refused: (person) => (['charge', 'manager'].includes(person) ? 404 : notFoundElsewhere(person)),
  },
  'POST /api/wall-displays/open': {
    body: () => ({ code: '2222-2222-2222' }),
    allowed: EVERYBODY,
    refused: forbidden,
  },
  'GET /api/hooks': { allowed: ['manager'], refused: forbidden },
  'GET /api/audit': { allowed: ['manager'], refused: forbidden },
  'POST /api/wards': {
    body: (person) => ({ id: `by-${person}`, name: 'New Ward', zone: 'UTC', shiftStarts: ['07:00'], beds: ['1'] }),
    allowed: ['manager'],
    refused: forbidden,
  },
};

type Kept = { sendId: string; discardId: string; amended: unknown };
const kept = new Map<Person, Kept>();

/** Two batches of another nurse that were refused, for each person who walks: their time lay in the future. */
async function keepTwo(person: Person, author: Browser) {
  const tomorrow = () =>
    draft('weight', { weightKg: 72, cavity: 'empty' }, { patientId, happenedAt: Date.now() + 24 * HOUR_MS });
  const [toSend, toDiscard] = [tomorrow(), tomorrow()];
  const keep = async (entry: unknown): Promise<string> => {
    const authorId = hospital.accounts['other-nurse'];
    const batch = { authorId, wardId: 'kestrel', deviceAt: Date.now(), entries: [entry] };
    return (await author.post('/api/outbox', batch)).body.keptId;
  };
  const amended = { ...toSend, happenedAt: Date.now() };
  kept.set(person, { sendId: await keep(toSend), discardId: await keep(toDiscard), amended });
}

beforeAll(async () => {
  hospital = await openHospital();
  patientId = await admitted(await hospital.signedIn('charge'), 'kestrel', '1', 'Walker');
  const author = await hospital.signedIn('other-nurse');
  for (const person of PEOPLE) await keepTwo(person, author);
});
afterAll(() => hospital.close());

/** One browser a person for the whole walk; whoever signed out comes with a new one. */
async function browserOf(person: Person): Promise<Browser> {
  if (person === 'stranger') return hospital.browser();
  const known = browsers.get(person);
  if (known) return known;
  const browser = await hospital.signedIn(person);
  browsers.set(person, browser);
  return browser;
}

const pathOf = (path: string) =>
  path
    .replace('{ward}', 'kestrel')
    .replace('/accounts/{id}', `/accounts/${hospital.accounts['other-nurse']}`)
    .replace('{display}', hospital.accounts['other-nurse']!)
    .replace('{id}', patientId);

/** A stream never ends by itself, so it is asked for over a real connection and left at once. */
async function statusOfStream(browser: Browser): Promise<number> {
  const { port } = hospital.app.server.address() as { port: number };
  const cookie = Object.entries(browser.cookies)
    .map(([name, value]) => `${name}=${value}`)
    .join('; ');
  const leave = new AbortController();
  const url = `http://127.0.0.1:${port}/api/wards/kestrel/stream`;
  const response = await fetch(url, { headers: { cookie }, signal: leave.signal });
  leave.abort();
  return response.status;
}

describe('every route, for everybody', () => {
  beforeAll(() => hospital.app.listen({ port: 0 }));

  it('stands in the table of this test', () => {
    const { paths = {} } = hospital.app.swagger();
    const served = Object.entries(paths).flatMap(([path, methods]) =>
      Object.keys(methods ?? {}).map((method) => `${method.toUpperCase()} ${path}`),
    );
    expect(served.toSorted()).toEqual(Object.keys(WALK).toSorted());
  });

  for (const [route, { path, body, headers, allowed, refused }] of Object.entries(WALK)) {
    it(`${route}: ${allowed.length === PEOPLE.length ? 'everybody' : allowed.join(', ')}`, async () => {
      const [method = '', template = ''] = route.split(' ');
      for (const person of PEOPLE) {
        const browser = await browserOf(person);
        const status = route.endsWith('/stream')
          ? await statusOfStream(browser)
          : (await browser.send(method, pathOf(path ?? template), body?.(person), headers)).status;
        const expected = person === 'stranger' ? 401 : refused(person);
        if (allowed.includes(person)) expect([200, 201, 204, 409, 410], `${person}: ${status}`).toContain(status);
        else expect(status, person).toBe(expected);
        if (/sign-/.test(route)) browsers.clear();
      }
    });
  }
});

describe('a locked session', () => {
  it('may do nothing on any route that changes something, but unlock and leave', async () => {
    const nurse = await hospital.signedIn('charge');
    await nurse.post('/api/lock');
    for (const [route, { path, body, headers }] of Object.entries(WALK)) {
      const [method = '', template = ''] = route.split(' ');
      if (method === 'GET' || /sign-in|sign-out|lock|first-administrator|wall-displays\/open/.test(route)) continue;
      const { status } = await nurse.send(method, pathOf(path ?? template), body?.('charge'), headers);
      expect(status, route).toBe(423);
    }
    expect((await nurse.get('/api/wards/kestrel/board')).status).toBe(200);
  });
});
