// Every route of the API's own description, as each role and as nobody, with fields missing, too many, of the wrong
// type, huge and hostile. `npm run test:hostile` does it for long. Nothing may fail in the server, every refusal is a
// problem document, and what is refused leaves nothing behind.
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { chance } from '@slackwater/api/demo/chance';
import { projectRoot } from '@slackwater/tools/paths';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { admitted, type Browser, type Hospital, openHospital } from '../api/hospital.ts';
import { fromSchema, HOSTILE, mutated } from './fuzz/from-schema.ts';

const ROUNDS = Number(process.env.FUZZ_ROUNDS ?? 20);
const SEED = Number(process.env.FUZZ_SEED ?? 20261125);
/** They end the session that the rest goes by, never end themselves, or hash a password each time. */
const LEFT_OUT = /\/(sign-out|sign-out-everywhere|stream|sign-in|unlock)$/;

let hospital: Hospital;
let people: Browser[];
let patients: string[];
beforeAll(async () => {
  hospital = await openHospital({ beds: 12 });
  const signedIn = ['nurse', 'charge', 'physician', 'manager', 'wall', 'merlin-nurse', 'nobody'];
  people = [hospital.browser()];
  for (const login of signedIn) people.push(await hospital.signedIn(login));
  const charge = await hospital.signedIn('charge');
  patients = [await admitted(charge, 'kestrel', '1'), await admitted(charge, 'kestrel', '2')];
});
afterAll(() => hospital.close());

const written = async (): Promise<number> =>
  (await hospital.pool.query('SELECT (SELECT count(*) FROM entry) + (SELECT count(*) FROM account) AS n')).rows[0].n;

test('no request, however made, fails in the server or leaves half of itself behind', {
  timeout: 60_000 + ROUNDS * 10_000,
}, async () => {
  const api = JSON.parse(await readFile(join(projectRoot, 'shared/openapi.json'), 'utf8'));
  const dice = chance(SEED);
  const one = <T>(list: readonly T[]): T => list[Math.floor(dice.unit() * list.length)]!;
  const inAddress = (name: string) => {
    const known = name === 'ward' ? 'kestrel' : one(patients);
    return encodeURIComponent(
      String(dice.unit() < 0.7 ? known : one(HOSTILE.filter((it) => typeof it !== 'object')))
        .slice(0, 300)
        .toWellFormed(),
    );
  };
  for (let round = 0; round < ROUNDS; round += 1) {
    for (const [path, methods] of Object.entries<
      Record<
        string,
        { requestBody?: { content: Record<string, { schema: unknown }> }; parameters?: { in: string; name: string }[] }
      >
    >(api.paths)) {
      for (const [method, described] of Object.entries(methods)) {
        if (LEFT_OUT.test(path)) continue;
        const query = (described.parameters ?? [])
          .filter((it) => it.in === 'query' && dice.unit() < 0.5)
          .map((it) => `${it.name}=${inAddress(it.name)}`)
          .join('&');
        const url = `${path.replace(/\{(\w+)\}/g, (_, name) => inAddress(name))}${query && `?${query}`}`;
        const schema = described.requestBody?.content['application/json']?.schema;
        const whole = schema && fromSchema(schema, api, dice);
        if (whole && 'wardId' in whole) whole.wardId = 'kestrel';
        for (const draft of whole?.entries ?? [])
          Object.assign(draft, { patientId: one(patients), happenedAt: Date.now() });
        const body = whole === undefined ? undefined : dice.unit() < 0.1 ? whole : mutated(whole, dice);
        const before = await written();
        const person = one(people);
        const text = JSON.stringify(body);
        const json = { 'content-type': 'application/json' };
        const answer = await person.send(method.toUpperCase(), url, text, text === undefined ? {} : json);
        const sent = `${method} ${url} ${text?.slice(0, 600)} (seed ${SEED}): ${answer.text.slice(0, 300)}`;
        expect(answer.status, sent).toBeLessThan(500);
        if (answer.status < 400) continue;
        expect(String(answer.headers['content-type']), sent).toMatch(/^application\/problem\+json/);
        expect(answer.body, sent).toMatchObject({
          status: answer.status,
          code: expect.any(String),
          errors: expect.any(Array),
        });
        expect(await written(), sent).toBe(before);
      }
    }
  }
});
