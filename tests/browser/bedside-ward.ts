import { randomUUID } from 'node:crypto';
import { hashPassword } from '@slackwater/api/access/password';
import { type Hooks, NO_HOOKS } from '@slackwater/api/alarms/hooks/hook';
import { type App, buildApp } from '@slackwater/api/app';
import { openSite, openWard } from '@slackwater/api/record/open-ward';
import {
  type Draft,
  type EntryKind,
  HOUR_MS,
  MINUTE_MS,
  type Payloads,
  type PrescriptionItem,
  type Role,
  STANDARD_FORMULARY,
} from '@slackwater/domain';
import { NO_LIMITS } from '@slackwater/domain/testing/no-limits';

export const PASSWORD = 'a password for tests';
export const WARD = 'kestrel';

const STAFF: readonly { login: string; name: string; role: Role }[] = [
  { login: 'lindahl', name: 'Signe Lindahl', role: 'nurse' },
  { login: 'okoro', name: 'Adaeze Okoro', role: 'nurse' },
  { login: 'adair', name: 'Rowan Adair', role: 'chargeNurse' },
  { login: 'solberg', name: 'Dr Imre Solberg', role: 'nephrologist' },
];

/** An invented patient as she stands when a test begins. */
export type Bed = {
  family: string;
  given: string;
  bed: string;
  inside: Payloads['admitted']['inside'];
  items?: readonly PrescriptionItem[];
  mostInsideMl?: number | null;
};

export const byLength = (solutionId: string, fillMl: number, dwellMinutes: number): PrescriptionItem => ({
  id: randomUUID(),
  solutionId,
  fillMl,
  additives: [],
  dwell: { by: 'length', dwellMinutes },
  windowMinutes: 30,
  condition: null,
});

/** 2,000 mL of 1.36 % glucose for about four hours: the ordinary case. */
export const filledHoursAgo = (hours: number, solutionId = 'glucose-1.36'): Bed['inside'] => ({
  cavity: 'holding',
  solutionId,
  filledMl: 2000,
  fillEndedAt: Date.now() - hours * HOUR_MS,
});

export type BedsideWard = Awaited<ReturnType<typeof openBedsideWard>>;

/**
 * Kestrel Ward on a database of its own, served as one process serves it.
 * @param boardFolder the built board
 * @param hooks paging systems that are told of alerts
 */
export async function openBedsideWard(databaseUrl: string, boardFolder: string, hooks: Hooks = NO_HOOKS) {
  const app = await buildApp({ databaseUrl, siteId: 'alder-point', https: false, boardFolder, build: 'test', hooks });
  await openSite(app.pool, { id: 'alder-point', name: 'Alder Point Hospital' }, STANDARD_FORMULARY);
  const beds = Array.from({ length: 26 }, (_, index) => String(index + 1));
  for (const [id, name] of [
    [WARD, 'Kestrel Ward'],
    ['plover', 'Plover Ward'],
  ] as const)
    await openWard(app.pool, {
      siteId: 'alder-point',
      id,
      name,
      zone: 'Europe/London',
      shiftStarts: ['07:00', '19:00'],
      beds,
    });
  await addStaff(app);
  const origin = await app.server.listen({ port: 0, host: '127.0.0.1' });
  const people = new Map<string, Promise<Person>>();
  const as = (login: string): Promise<Person> => {
    const known = people.get(login) ?? signIn(origin, login);
    people.set(login, known);
    return known;
  };

  /** Admits a patient with a prescription and, where known, what is inside. @returns the patient's id */
  const admit = async ({ family, given, bed, inside, items, mostInsideMl = null }: Bed): Promise<string> => {
    const id = randomUUID();
    const filledAt = inside.cavity === 'holding' ? inside.fillEndedAt : null;
    const happenedAt = filledAt === null ? Date.now() - 6 * HOUR_MS : filledAt + MINUTE_MS;
    const charge = await as('adair');
    const identity = {
      id,
      family,
      given,
      dateOfBirth: '1953-05-17',
      gender: 'female',
      hospitalNumber: `AP ${id.slice(0, 6)}`,
      allergy: 'chlorhexidine',
      isolation: null,
      cautions: [],
    };
    const admission = draft('admitted', { bed, inside, dialysis: 'chronic' }, { patientId: id, happenedAt });
    await charge.post('/api/patients', { identity, wardId: WARD, deviceAt: Date.now(), admission });
    if (items) {
      const limits = { ...NO_LIMITS, mostInsideMl };
      const payload = { items, limits, acute: false, note: null, reviewBy: null };
      await (await as('solberg')).record(
        draft('prescribed', payload, { patientId: id, happenedAt: happenedAt + MINUTE_MS }),
      );
    }
    return id;
  };

  return { app, origin, as, admit, close: () => app.close() };
}

async function addStaff({ pool }: App): Promise<void> {
  const hash = await hashPassword(PASSWORD);
  for (const { login, name, role } of STAFF) {
    const id = randomUUID();
    await pool.query(
      `INSERT INTO account (site_id, id, login, name, password_hash, password_changed_at, created_at)
       VALUES ('alder-point', $1, $2, $3, $4, now(), now())`,
      [id, login, name, hash],
    );
    await pool.query(`INSERT INTO account_role VALUES ('alder-point', $1, $2, $3)`, [id, WARD, role]);
  }
}

/** Somebody at another device, who works through the API as a browser would. */
export type Person = {
  cookie: string;
  get: <T>(path: string) => Promise<T>;
  post: <T>(path: string, body?: unknown) => Promise<T>;
  record: (...entries: Draft[]) => Promise<void>;
};

async function signIn(origin: string, login: string): Promise<Person> {
  const answer = await fetch(`${origin}/api/sign-in`, {
    method: 'POST',
    headers: { 'content-type': 'application/json', origin },
    body: JSON.stringify({ login, password: PASSWORD }),
  });
  if (!answer.ok) throw new Error(`${login} could not sign in: ${answer.status} ${await answer.text()}`);
  const cookie = (answer.headers.get('set-cookie') ?? '').split(';')[0] ?? '';
  const send = async <T>(method: string, path: string, body?: unknown): Promise<T> => {
    const response = await fetch(origin + path, {
      method,
      headers: { cookie, origin, ...(body === undefined ? {} : { 'content-type': 'application/json' }) },
      ...(body === undefined ? {} : { body: JSON.stringify(body) }),
    });
    if (!response.ok) throw new Error(`${method} ${path}: ${response.status} ${await response.text()}`);
    return (response.status === 204 ? null : await response.json()) as T;
  };
  return {
    cookie,
    get: (path) => send('GET', path),
    post: (path, body) => send('POST', path, body),
    record: async (...entries) => {
      await send('POST', '/api/entries', { wardId: WARD, deviceAt: Date.now(), entries });
    },
  };
}

/** An entry as its author's device writes it. */
export const draft = <K extends EntryKind>(
  kind: K,
  payload: Payloads[K],
  rest: { patientId: string | null; visitId?: string | null; after?: string | null; happenedAt?: number; id?: string },
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
