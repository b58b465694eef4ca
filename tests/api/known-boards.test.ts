import request from 'supertest';
import { afterAll, beforeAll, beforeEach, describe, expect, it, vi } from 'vitest';
import { admitted, type Hospital, openHospital, PASSWORD, SITE } from './hospital.ts';

// The way past the framework is taken over a socket alone; an injected request always goes the long way.
let hospital: Hospital;
beforeAll(async () => {
  hospital = await openHospital();
  await hospital.app.listen({ port: 0, host: '127.0.0.1' });
  await admitted(await hospital.signedIn('charge'), 'kestrel', '1');
});
afterAll(() => hospital.close());

/** The guard in front of every route of the framework asks this of every read. */
const longWays = () => vi.spyOn(hospital.access.sessions, 'recall');
beforeEach(() => {
  vi.restoreAllMocks();
  hospital.access.sessions.forgetAll();
});

async function signedIn(login: string) {
  const agent = request.agent(hospital.app.server);
  await agent.post('/api/sign-in').send({ login, password: PASSWORD }).expect(200);
  return agent;
}

type Agent = Awaited<ReturnType<typeof signedIn>>;

async function look(agent: Agent, address = '/api/wards/kestrel/board', headers: Record<string, string> = {}) {
  const answer = await agent
    .get(address)
    .set(headers)
    .buffer(true)
    .parse((response, done) => {
      const chunks: Buffer[] = [];
      response.on('data', (chunk: Buffer) => chunks.push(chunk));
      response.on('end', () => done(null, Buffer.concat(chunks).toString('base64')));
    });
  const { date, ...rest } = answer.headers as Record<string, string>;
  return { status: answer.status, headers: rest, body: answer.body as string };
}

describe('a board that somebody was shown a moment ago', () => {
  it.each([
    ['plain', 'nurse', 'board', 'identity'],
    ['gzip', 'nurse', 'board', 'gzip'],
    ['brotli', 'nurse', 'board', 'gzip, deflate, br'],
    ['for the wall', 'wall', 'wall', 'br'],
  ])('is answered past the framework as the framework answers it: %s', async (_, login, page, encoding) => {
    const agent = await signedIn(login);
    const asked = longWays();
    const address = `/api/wards/kestrel/${page}`;
    const long = await look(agent, address, { 'accept-encoding': encoding });
    expect(asked).toHaveBeenCalledTimes(1);
    // on a machine so busy that seconds pass in between, the framework is asked once more
    const short = await vi.waitFor(async () => {
      asked.mockClear();
      const answer = await look(agent, address, { 'accept-encoding': encoding });
      expect(asked).not.toHaveBeenCalled();
      return answer;
    }, 60_000);
    expect(long.status).toBe(200);
    expect(short).toEqual(long);
  });

  it('is not sent again by either way', async () => {
    const agent = await signedIn('nurse');
    const { headers } = await look(agent);
    const known = { 'if-none-match': headers.etag! };
    const short = await look(agent, undefined, known);
    hospital.access.sessions.forgetAll();
    const asked = longWays();
    const long = await look(agent, undefined, known);
    expect(asked).toHaveBeenCalledTimes(1);
    expect(long).toMatchObject({ status: 304, body: '' });
    expect(short).toEqual(long);
  });

  it('is refused from the moment that the person signs out', async () => {
    const agent = await signedIn('nurse');
    await look(agent);
    expect((await look(agent)).status).toBe(200);
    await agent.post('/api/sign-out').expect(204);
    expect((await look(agent)).status).toBe(401);
  });

  it('is refused from the moment that the account loses its role', async () => {
    const agent = await signedIn('other-nurse');
    await look(agent);
    expect((await look(agent)).status).toBe(200);
    const account = hospital.accounts['other-nurse']!;
    await hospital.pool.query('DELETE FROM account_role WHERE site_id = $1 AND account_id = $2', [SITE, account]);
    await hospital.access.sessions.changed(account);
    expect((await look(agent)).status).toBe(404);
  });

  it('opens no other ward, and no board to a wall display', async () => {
    const nurse = await signedIn('nurse');
    await look(nurse);
    expect((await look(nurse, '/api/wards/merlin/board')).status).toBe(404);
    const wall = await signedIn('wall');
    await look(wall, '/api/wards/kestrel/wall');
    expect((await look(wall)).status).toBe(403);
  });

  it('is noted once, as a look that the framework answers is', async () => {
    const agent = await signedIn('physician');
    const looks = async () =>
      (
        await hospital.pool.query('SELECT FROM audit WHERE account_id = $1 AND action = $2', [
          hospital.accounts.physician,
          'readBoard',
        ])
      ).rowCount;
    expect(await looks()).toBe(0);
    await look(agent);
    await look(agent);
    expect(await looks()).toBe(1);
  });
});
