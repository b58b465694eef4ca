import { PROBLEMS, problemDocument } from '@slackwater/contract';
import { afterAll, afterEach, beforeAll, describe, expect, it, vi } from 'vitest';
import { type Answer, type Browser, type Hospital, openHospital } from './hospital.ts';

let hospital: Hospital;
let nurse: Browser;
beforeAll(async () => {
  hospital = await openHospital();
  nurse = await hospital.signedIn('nurse');
});
afterEach(() => vi.restoreAllMocks());
afterAll(() => hospital.close());

// RFC 9457, sections 3 and 3.1: the media type, and `status` equal to that of the answer
function expectProblem(answer: Answer, code: keyof typeof PROBLEMS) {
  expect(answer.headers['content-type']).toBe('application/problem+json; charset=utf-8');
  expect(answer.headers['cache-control']).toBe('no-store');
  const document = problemDocument.parse(answer.body);
  expect(document).toMatchObject({ code, status: answer.status, title: PROBLEMS[code].title });
  expect(answer.status).toBe(PROBLEMS[code].status);
}

describe('what the server does not take', () => {
  it('is answered as a problem, each in its own way', async () => {
    const json = { 'content-type': 'application/json' };
    expectProblem(await nurse.post('/api/entries', '{"wardId":', json), 'invalid');
    expectProblem(await nurse.post('/api/entries', '', json), 'invalid');
    expectProblem(await nurse.post('/api/entries', '[]', json), 'invalid');
    expectProblem(await nurse.post('/api/entries', '<a/>', { 'content-type': 'text/xml' }), 'wrongMediaType');
    expectProblem(await nurse.post('/api/entries', `"${'x'.repeat(1_100_000)}"`, json), 'tooLarge');
    expectProblem(await nurse.get('/api/nowhere'), 'notFound');
    expectProblem(await nurse.send('DELETE', '/api/entries'), 'notFound');
    expectProblem(await nurse.get('/api/wards/%E0%A4%A/board'), 'invalid');
    expectProblem(await nurse.get('/api/wards/Kestrel%20Ward/board'), 'invalid');
    expectProblem(await hospital.browser().get('/api/session'), 'notSignedIn');
  });

  it('cannot smuggle a prototype in', async () => {
    const body = '{"wardId":"kestrel","deviceAt":1764000000000,"entries":[],"__proto__":{"manager":true}}';
    expectProblem(await nurse.post('/api/entries', body, { 'content-type': 'application/json' }), 'invalid');
  });

  it('is told without the password that was typed', async () => {
    const typed = 'x'.repeat(201);
    const answer = await hospital.browser().post('/api/sign-in', { login: 'nurse', password: typed });
    expectProblem(answer, 'invalid');
    expect(answer.body.errors[0]).toMatchObject({ field: 'password', value: null });
    expect(answer.text).not.toContain(typed.slice(0, 20));
  });
});

describe('a failure of the server itself', () => {
  it('tells nothing of the inside but the number of the request', async () => {
    vi.spyOn(hospital.pool, 'query').mockRejectedValue(new Error('relation "secret_table" does not exist') as never);
    const answer = await nurse.get('/api/wards/kestrel/beds');
    expectProblem(answer, 'internal');
    expect(answer.text).not.toMatch(/secret_table|relation|\.ts|node_modules/);
    expect(answer.body.instance).toMatch(/^urn:slackwater:request:.+/);
  });

  it('that will pass asks to send again', async () => {
    const away = Object.assign(new Error('terminating connection'), { code: '57P01' });
    vi.spyOn(hospital.pool, 'query').mockRejectedValue(away as never);
    const answer = await nurse.get('/api/wards/kestrel/beds');
    expectProblem(answer, 'busy');
    expect(answer.headers['retry-after']).toBe('2');
  });
});
