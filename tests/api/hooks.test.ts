// Alerts told outside the ward. Receivers listen on this machine alone.
import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import { HOUR_MS, MINUTE_MS } from '@slackwater/domain';
import type pg from 'pg';
import { Webhook } from 'standardwebhooks';
import { afterAll, beforeAll, beforeEach, describe, expect, test, vi } from 'vitest';
import { createDeliveries } from '../../apps/api/src/alarms/hooks/deliveries.ts';
import type { Hooks } from '../../apps/api/src/alarms/hooks/hook.ts';
import { post } from '../../apps/api/src/alarms/hooks/post.ts';
import { sweep } from '../../apps/api/src/alarms/sweep.ts';
import { createPolicies } from '../../apps/api/src/record/policies.ts';
import { createRecord } from '../../apps/api/src/record/record.ts';
import { type FreshDatabase, freshDatabase } from '../support/database.ts';
import { hookReceiver, hookTo, SECRET, THIS_MACHINE, thisMachine } from './hook-receiver.ts';
import {
  admitted,
  close,
  draft,
  exchange,
  mustAppend,
  mustFail,
  patient,
  pool,
  prescribed,
  SITE,
  type TestWard,
  testWard,
  WARD,
} from './record-ward.ts';

let database: FreshDatabase;
let db: pg.Pool;
let ward: TestWard;
const policies = createPolicies();
const beds = new Map<string, string>();
beforeAll(async () => {
  database = await freshDatabase();
  db = pool(database.appUrl, 8);
  ward = await testWard(db);
});
afterAll(async () => {
  await close(db);
  await database.drop();
});
beforeEach(() => db.query('DELETE FROM delivery'));

const patiently = { timeout: 30_000, interval: 20 };

/**
 * A patient whose drain is far overdue, and the alert that says so: a dwell of 4 h is overdue after 24 min and high
 * after 48 (the ward's margins: common practice). What is raised is to be told to `url`.
 */
async function overdue(hooks: Hooks, family = 'Invented'): Promise<string> {
  const patientId = await patient(db, family);
  const bed = String(beds.size + 1);
  beds.set(patientId, bed);
  const fillEndedAt = Date.now() - 5 * HOUR_MS;
  await mustAppend(ward, ward.actors.charge, [admitted(patientId, bed, fillEndedAt, fillEndedAt)]);
  const told = { ...ward, record: createRecord({ pool: db, policies, hooks: hooks.hooks }) };
  await mustAppend(told, ward.actors.physician, [prescribed(patientId, fillEndedAt)]);
  await sweep(db, policies, SITE, hooks.hooks);
  return patientId;
}

const hooksTo = (url: string): Hooks => ({ hooks: [hookTo(url)], inside: THIS_MACHINE });
const waiting = async () =>
  (await db.query('SELECT id, tries, last_error FROM delivery WHERE next_try_at IS NOT NULL ORDER BY created_at')).rows;
const dueAtOnce = () => db.query('UPDATE delivery SET next_try_at = now() WHERE next_try_at IS NOT NULL');

/** Sends until `holds`, then stops. */
async function sendUntil(hooks: Hooks, holds: () => unknown): Promise<void> {
  const deliveries = createDeliveries({
    siteId: SITE,
    pool: db,
    hooks,
    onTrouble: ({ message }) => expect.fail(message),
  });
  deliveries.start();
  try {
    await vi.waitFor(holds, patiently);
  } finally {
    await deliveries.stop();
  }
}

describe('an alert that rises', () => {
  test('is told with a signature that a foreign library takes, and with nobody’s name', async () => {
    const receiver = await hookReceiver();
    const patientId = await overdue(hooksTo(receiver.url), 'Unmistakable');
    await sendUntil(hooksTo(receiver.url), () => expect(receiver.received).toHaveLength(1));
    const [{ headers, body, method, path }] = receiver.received as [(typeof receiver.received)[0]];
    expect([method, path, headers['content-type']]).toEqual(['POST', '/alerts', 'application/json']);
    // the outside oracle: the package standardwebhooks, by the authors of the specification
    const told = new Webhook(SECRET).verify(body, headers as Record<string, string>) as Record<string, unknown>;
    expect(told).toMatchObject({
      type: 'alert.raised',
      data: {
        site: SITE,
        ward: WARD,
        bed: beds.get(patientId),
        kind: 'drainOverdue',
        title: 'Drain overdue',
        rank: 'high',
        settingsVersion: 1,
        escalatedTo: null,
        link: '/ward/kestrel/alerts',
      },
    });
    const alert = await db.query('SELECT id, since FROM alert WHERE patient_id = $1', [patientId]);
    expect(told.data).toMatchObject({ alert: alert.rows[0].id, since: alert.rows[0].since.toISOString() });
    expect(body).not.toContain('Unmistakable');
    expect(body).not.toContain(patientId);
    expect(() => new Webhook(SECRET).verify(`${body} `, headers as Record<string, string>)).toThrow();
    await receiver.close();
  });

  test('is told as it goes up a step and as it is cleared, in ids of their own', async () => {
    const receiver = await hookReceiver();
    const hooks = hooksTo(receiver.url);
    const patientId = await overdue(hooks);
    // nobody had it for 5 min, the ward's time: as if it had been raised so long ago
    await db.query(
      `UPDATE bedside SET next_change_at = now(),
        state = jsonb_set(state::jsonb, '{alerts,0,raisedAt}', to_jsonb((state #>> '{alerts,0,raisedAt}')::float8 - $2::float8))
      WHERE patient_id = $1`,
      [patientId, 5 * MINUTE_MS],
    );
    await sweep(db, policies, SITE, hooks.hooks);
    const told = { ...ward, record: createRecord({ pool: db, policies, hooks: hooks.hooks }) };
    const { rows } = await db.query('SELECT id FROM prescription_revision WHERE patient_id = $1', [patientId]);
    const drained = exchange({ patientId, revisionId: rows[0].id }, Date.now() - 31 * MINUTE_MS, null);
    await mustAppend(told, ward.actors.nurse, drained);
    await sendUntil(hooks, () => expect(receiver.received).toHaveLength(3));
    const bodies = receiver.received.map(({ body }) => JSON.parse(body));
    expect(bodies.map(({ type }) => type).toSorted()).toEqual(['alert.cleared', 'alert.escalated', 'alert.raised']);
    expect(bodies.find(({ type }) => type === 'alert.escalated').data.escalatedTo).toBe('chargeNurse');
    expect(new Set(bodies.map(({ data }) => data.alert)).size).toBe(1);
    expect(new Set(receiver.received.map(({ headers }) => headers['webhook-id'])).size).toBe(3);
    await receiver.close();
  });

  test('is told to whom its rank concerns, and to nobody without a hook', async () => {
    const { hooks } = hooksTo('http://127.0.0.1:9/all');
    await overdue({ hooks: [hookTo('http://127.0.0.1:9/low', ['low'])], inside: THIS_MACHINE });
    await overdue({ hooks: [], inside: [] });
    expect(await waiting()).toEqual([]);
    await overdue({ hooks, inside: THIS_MACHINE });
    expect(await waiting()).toHaveLength(1);
  });

  test('is to be told with the entry that it is about, or not at all', async () => {
    const hooks = hooksTo('http://127.0.0.1:9/');
    const patientId = await overdue(hooks);
    const [raised] = (
      await db.query("SELECT id FROM entry WHERE patient_id = $1 AND kind = 'alertRaised'", [patientId])
    ).rows;
    expect(await waiting()).toHaveLength(1);
    await db.query('DELETE FROM delivery');
    const told = { ...ward, record: createRecord({ pool: db, policies, hooks: hooks.hooks }) };
    const clear = (reason: string) =>
      draft('alertCleared', { alertId: raised.id, by: 'person', reason }, { patientId, happenedAt: Date.now() });
    const weightless = draft('weight', { weightKg: -1, cavity: 'full' }, { patientId, happenedAt: Date.now() });
    await mustFail(told, ward.actors.nurse, [clear('entered on paper'), weightless]);
    expect(await waiting()).toEqual([]);
    await mustAppend(told, ward.actors.nurse, [clear('entered on paper')]);
    expect(await waiting()).toHaveLength(1);
  });
});

describe('a receiver', () => {
  test('that fails is tried again with the same id and a new signature, later each time', async () => {
    const receiver = await hookReceiver((_, count) => ({ status: count < 3 ? 500 : 202 }));
    const hooks = hooksTo(receiver.url);
    await overdue(hooks);
    for (const tries of [1, 2]) {
      await sendUntil(hooks, async () =>
        expect(await waiting()).toMatchObject([{ tries, last_error: 'answered 500' }]),
      );
      const { rows } = await db.query(
        'SELECT extract(epoch FROM next_try_at - tried_at)::float8 AS wait FROM delivery',
      );
      // 5 s, then 10 s; the answer took a moment
      expect(rows[0].wait).toBeGreaterThanOrEqual(5 * tries);
      await dueAtOnce();
    }
    await sendUntil(hooks, async () => expect(await waiting()).toEqual([]));
    expect(receiver.received).toHaveLength(3);
    const ids = receiver.received.map(({ headers }) => headers['webhook-id']);
    expect(new Set(ids).size).toBe(1);
    for (const { body, headers } of receiver.received)
      new Webhook(SECRET).verify(body, headers as Record<string, string>);
    const { rows } = await db.query('SELECT delivered_at IS NOT NULL AS delivered, last_error FROM delivery');
    expect(rows).toEqual([{ delivered: true, last_error: null }]);
    await receiver.close();
  });

  test('that redirects is not followed', async () => {
    const elsewhere = await hookReceiver();
    const receiver = await hookReceiver(() => ({ status: 307, headers: { location: elsewhere.url } }));
    const hooks = hooksTo(receiver.url);
    await overdue(hooks);
    await sendUntil(hooks, async () =>
      expect(await waiting()).toMatchObject([{ last_error: 'answered 307; redirects are not followed' }]),
    );
    expect(elsewhere.received).toEqual([]);
    await receiver.close();
    await elsewhere.close();
  });

  test.each(['127.0.0.1', 'localhost'])(
    'at %s is not reached unless the configuration names its address',
    async (host) => {
      const receiver = await hookReceiver();
      const hooks: Hooks = { hooks: [hookTo(`http://${host}:${receiver.port}/`)], inside: ['10.1.2.3'] };
      await overdue(hooks);
      await sendUntil(hooks, async () =>
        expect(await waiting()).toMatchObject([
          { last_error: expect.stringMatching(/^\S+ is at (127\.0\.0\.1|::1), which is no public address/) },
        ]),
      );
      expect(receiver.received).toEqual([]);
      await receiver.close();
    },
  );

  test('is reached by a name whose every address the configuration names', async () => {
    const receiver = await hookReceiver();
    const hooks: Hooks = {
      hooks: [hookTo(`http://localhost:${receiver.port}/`)],
      inside: ['127.0.0.1', '::1'],
    };
    await overdue(hooks);
    await sendUntil(hooks, async () => expect(await waiting()).toEqual([]));
    expect(receiver.received.map(({ headers }) => headers.host)).toEqual([`localhost:${receiver.port}`]);
    await receiver.close();
  });

  test('that answers without end is not heard out', async () => {
    const cut = Promise.withResolvers<void>();
    const server = createServer((_, response) => {
      response.writeHead(200);
      const more = () => {
        while (response.write(Buffer.alloc(16_384)));
        response.once('drain', more);
      };
      more();
      response.on('close', () => cut.resolve());
    });
    await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
    const { port } = server.address() as AddressInfo;
    const message = { hook: hookTo(`http://127.0.0.1:${port}/`), id: 'one', at: Date.now(), body: '{}' };
    expect(await post({ ...message, inside: thisMachine, stopped: new AbortController().signal })).toBeNull();
    await cut.promise;
    server.closeAllConnections();
    await new Promise((resolve) => server.close(resolve));
  });

  test('that was taken out of the configuration gets nothing, and after a day nobody tries', async () => {
    const receiver = await hookReceiver();
    await overdue(hooksTo('http://127.0.0.1:9/gone'));
    await overdue(hooksTo(receiver.url));
    await sendUntil(hooksTo(receiver.url), async () => {
      expect(receiver.received).toHaveLength(1);
      // that it was answered is noted a moment after
      expect(await waiting()).toHaveLength(1);
    });
    await db.query("UPDATE delivery SET created_at = created_at - interval '25 hours'");
    await sendUntil(hooksTo(receiver.url), async () => expect(await waiting()).toEqual([]));
    const { rows } = await db.query('SELECT last_error FROM delivery WHERE delivered_at IS NULL');
    expect(rows).toEqual([{ last_error: 'was not tried in time' }]);
    await receiver.close();
  });

  test('that says nothing holds up no other', async () => {
    const silent = await hookReceiver(() => 'silence');
    const receiver = await hookReceiver();
    const hooks: Hooks = { hooks: [hookTo(silent.url), hookTo(receiver.url)], inside: THIS_MACHINE };
    await overdue(hooks);
    await sendUntil(hooks, () => {
      expect(silent.received).toHaveLength(1);
      expect(receiver.received).toHaveLength(1);
    });
    expect(await waiting()).toMatchObject([{ last_error: 'the server was stopped meanwhile' }]);
    await silent.close();
    await receiver.close();
  });
});

describe('processes', () => {
  test('a kill between the commit and the answer loses nothing: another sends it with the same id', async () => {
    let silent = true;
    const receiver = await hookReceiver(() => (silent ? 'silence' : { status: 200 }));
    const hooks = hooksTo(receiver.url);
    await overdue(hooks);
    const killed = await courier(receiver.url);
    await vi.waitFor(() => expect(receiver.received).toHaveLength(1), patiently);
    killed.kill('SIGKILL');
    await once(killed, 'exit');
    silent = false;
    expect(await waiting()).toHaveLength(1);
    // what a killed process had taken comes free after a minute
    await dueAtOnce();
    await sendUntil(hooks, async () => expect(await waiting()).toEqual([]));
    expect(receiver.received.map(({ headers }) => headers['webhook-id'])).toEqual([
      receiver.received[0]!.headers['webhook-id'],
      receiver.received[0]!.headers['webhook-id'],
    ]);
    await receiver.close();
  });

  test('three of them send each message once', async () => {
    const receiver = await hookReceiver();
    const hooks = hooksTo(receiver.url);
    for (let count = 0; count < 4; count += 1) await overdue(hooks);
    await db.query(
      `INSERT INTO delivery (site_id, id, ward_id, target, body, created_at, next_try_at, tries)
      SELECT site_id, gen_random_uuid(), ward_id, target, body, created_at, next_try_at, 0
      FROM delivery, generate_series(1, 20)`,
    );
    const couriers = await Promise.all([1, 2, 3].map(() => courier(receiver.url)));
    await vi.waitFor(async () => expect(await waiting()).toEqual([]), patiently);
    const ids = receiver.received.map(({ headers }) => headers['webhook-id']);
    expect(ids).toHaveLength(84);
    expect(new Set(ids).size).toBe(84);
    for (const each of couriers) {
      each.kill('SIGTERM');
      await once(each, 'exit');
    }
    await receiver.close();
  });
});

async function courier(url: string): Promise<ChildProcess> {
  const child = spawn(process.execPath, [join(import.meta.dirname, 'processes/courier.ts'), database.appUrl, url], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  await once(child.stdout!, 'data');
  return child;
}
