import { randomUUID } from 'node:crypto';
import type { ProblemDocument } from '@slackwater/contract';
import type { Draft } from '@slackwater/domain';
import { DRAIN_ONLY, draft, identity } from '../api/hospital.ts';

export type Receipt = { id: string; position: number; receivedAt: number; happenedAt: number };
export type Recorder = Awaited<ReturnType<typeof admitAndRecord>>;

async function send(url: string, method: string, path: string, cookie: string, body?: unknown): Promise<Response> {
  const headers = { cookie, ...(body === undefined ? {} : { 'content-type': 'application/json' }) };
  return fetch(url + path, { method, headers, ...(body === undefined ? {} : { body: JSON.stringify(body) }) });
}

async function done(answer: Response): Promise<Response> {
  if (!answer.ok) throw new Error(`${answer.url}: ${answer.status} ${await answer.text()}`);
  return answer;
}

async function signIn(url: string, login: string): Promise<string> {
  const answer = await done(await send(url, 'POST', '/api/sign-in', '', { login, password: 'a password for tests' }));
  return answer.headers
    .getSetCookie()
    .map((one) => one.split(';')[0])
    .join('; ');
}

/** The cookie of somebody who signed in. */
export type Signed = string;

/** One write, as somebody. @throws when it is not done */
export const signedRequest = async (url: string, path: string, cookie: Signed, body: unknown): Promise<Response> =>
  done(await send(url, 'POST', path, cookie, body));

/** Opens Kestrel Ward with its beds in an empty hospital. @returns the cookies of its charge nurse and its physician */
export async function openWard(url: string, beds: readonly string[]): Promise<{ charge: Signed; physician: Signed }> {
  const manager = await signIn(url, 'administrator');
  const ward = { id: 'kestrel', name: 'Kestrel Ward', zone: 'Europe/London', shiftStarts: ['07:00', '19:00'], beds };
  await signedRequest(url, '/api/wards', manager, ward);
  for (const [login, role] of [
    ['charge', 'chargeNurse'],
    ['physician', 'nephrologist'],
  ] as const) {
    const roles = [{ wardId: 'kestrel', role }];
    const account = { id: randomUUID(), login, name: `Name of ${login}`, manager: false, roles };
    await signedRequest(url, '/api/accounts', manager, { ...account, password: 'a password for tests' });
  }
  return { charge: await signIn(url, 'charge'), physician: await signIn(url, 'physician') };
}

/** A nurse at one bed, whose tablet remembers what it sent and what it was told. */
export async function admitAndRecord(url: string, cookie: string, bed: string) {
  const patient = identity(`Fennel ${bed}`);
  const patientId = patient.id;
  const inside = { cavity: 'empty' } as const;
  const admission = draft('admitted', { bed, inside, dialysis: 'chronic' }, { patientId });
  const body = { identity: patient, wardId: 'kestrel', deviceAt: Date.now(), admission };
  await done(await send(url, 'POST', '/api/patients', cookie, body));

  const sent = new Map<string, Draft>();
  const told = new Map<string, Receipt>();
  let unanswered: Draft | null = null;
  let turnedAway: ProblemDocument | null = null;
  let visitId = randomUUID();
  let head: string | null = null;

  const post = (at: string, entry: Draft) =>
    send(at, 'POST', '/api/entries', cookie, { wardId: 'kestrel', deviceAt: Date.now(), entries: [entry] });

  const next = () => ({ patientId, visitId, after: head });

  /** Steps of visits that are prepared, connected and stopped, with a weight between them. */
  function* work(): Generator<Draft> {
    for (;;) {
      visitId = randomUUID();
      yield draft('prepare', DRAIN_ONLY, next());
      yield draft('connect', {}, next());
      yield draft('weight', { weightKg: 70, cavity: 'empty' }, { patientId });
      yield draft('stop', { reason: 'calledAway', note: null, infused: null, contamination: null }, next());
    }
  }
  const tasks = work();

  return {
    /**
     * Records as fast as it is answered, until it is answered no more; what went unanswered is sent first.
     * @param onAcknowledged answers false to end after this one
     */
    async workAt(at: string, onAcknowledged: () => boolean) {
      for (;;) {
        const entry: Draft = unanswered ?? tasks.next().value;
        sent.set(entry.id, entry);
        unanswered = entry;
        const answer = await post(at, entry)
          .then(async (response) => ({ status: response.status, body: await response.json() }))
          .catch(() => null);
        if (answer === null) return;
        if (answer.status === 503 || answer.status === 408) {
          turnedAway = answer.body;
          return;
        }
        if (answer.status !== 200) throw new Error(`${entry.kind} was answered ${JSON.stringify(answer.body)}.`);
        told.set(entry.id, answer.body.receipts[0]);
        if (entry.visitId !== null) head = entry.id;
        unanswered = null;
        if (!onAcknowledged()) return;
      }
    },
    acknowledged: (): readonly Receipt[] => [...told.values()],
    unanswered: () => unanswered,
    /** What the last answer said that asks to send again: 503, or 408 after a server stood still. */
    turnedAway: (): ProblemDocument | null => turnedAway,
    async sendAgain(at: string, id: string): Promise<Receipt> {
      const { receipts } = await (await done(await post(at, sent.get(id)!))).json();
      return receipts[0];
    },
    /** The ids of all that stands in the record of this patient. */
    async storedAt(at: string): Promise<ReadonlySet<string>> {
      const ids = new Set<string>();
      let cursor: string | null = null;
      do {
        const query: string = cursor === null ? '?limit=200' : `?limit=200&cursor=${cursor}`;
        const page = await (
          await done(await send(at, 'GET', `/api/patients/${patientId}/entries${query}`, cookie))
        ).json();
        for (const entry of page.entries) ids.add(entry.id);
        cursor = page.nextCursor;
      } while (cursor !== null);
      return ids;
    },
  };
}
