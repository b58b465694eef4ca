import { setTimeout } from 'node:timers/promises';
import { brotliDecompressSync, gunzipSync } from 'node:zlib';
import type { BoardDelta, BoardSnapshot, WallSnapshot } from '@slackwater/contract';
import { HOUR_MS, MINUTE_MS } from '@slackwater/domain';
import pg from 'pg';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { createLive, type Live } from '../../apps/api/src/live/live.ts';
import { MOST_UNSENT_BYTES, type Sink } from '../../apps/api/src/live/streams.ts';
import { createPolicies } from '../../apps/api/src/record/policies.ts';
import { type FreshDatabase, freshDatabase } from '../support/database.ts';
import {
  close,
  draft,
  exchange,
  inBed,
  mustAppend,
  OTHER_WARD,
  type Prescribed,
  pool,
  SITE,
  type TestWard,
  testWard,
  toldOfFluid,
  WARD,
} from './record-ward.ts';

let database: FreshDatabase;
let db: pg.Pool;
let ward: TestWard;
const opened: Live[] = [];
const clients: pg.Client[] = [];
let bed: Prescribed;
beforeAll(async () => {
  database = await freshDatabase();
  db = pool(database.appUrl, 8);
  ward = await testWard(db);
  bed = await inBed(ward, '1', Date.now() - 6 * HOUR_MS);
});
afterEach(async () => {
  await Promise.all(opened.splice(0).map((live) => live.stop()));
  clients.length = 0;
});
afterAll(async () => {
  await close(db);
  await database.drop();
});

/** Another process of the server, as far as the database can tell. */
async function live(options: { deaf?: boolean } = {}): Promise<Live> {
  const made = createLive({
    siteId: SITE,
    pool: db,
    policies: createPolicies(),
    listeningClient() {
      const client = new pg.Client({ connectionString: database.appUrl, options: '-c TimeZone=UTC' });
      if (options.deaf) deafen(client);
      clients.push(client);
      return client;
    },
    build: 'test',
    alarmsThrough: () => 1_000,
    onPosition: () => {},
    onTrouble: () => {},
  });
  opened.push(made);
  await made.start();
  return made;
}

/** NOTIFY switched off: what is told is not heard. */
function deafen(client: pg.Client): void {
  const emit = client.emit.bind(client) as (event: string, ...args: unknown[]) => boolean;
  client.emit = ((event: string, ...args: unknown[]) =>
    event === 'notification' ? false : emit(event, ...args)) as typeof client.emit;
}

type Event = { event: string; id: number | null; data: BoardDelta & { position: number; epoch: string } };

/** A board's end of a stream: keeps what came. */
class Board implements Sink {
  events: Event[] = [];
  isEnded = false;
  isDestroyed = false;
  writableLength = 0;
  write(bytes: Buffer): boolean {
    const [, id, event, data] = /^(?:id: (\d+)\n)?event: (\w+)\ndata: (.*)\n\n$/.exec(bytes.toString()) ?? [];
    this.events.push({ event: event!, id: id === undefined ? null : Number(id), data: JSON.parse(data!) });
    return true;
  }
  end(): void {
    this.isEnded = true;
  }
  destroy(): void {
    this.isDestroyed = true;
  }
  get rows(): Event[] {
    return this.events.filter(({ event }) => event === 'rows');
  }
}

const join = async (to: Live, lastPosition: number | null = null, board = new Board(), mayStill = async () => true) => {
  await to.join({ wardId: WARD, projection: 'staff', sink: board, accountId: 'somebody', mayStill, lastPosition });
  return board;
};

/** Waits until something holds; the test's own time limit says when it never does. */
async function until(holds: () => boolean | Promise<boolean>): Promise<void> {
  while (!(await holds())) await setTimeout(10);
}

const weigh = (weightKg: number, patientId = bed.patientId) =>
  mustAppend(ward, ward.actors.nurse, [
    draft('weight', { weightKg, cavity: 'full' }, { patientId, happenedAt: Date.now() - MINUTE_MS }),
  ]);

const snapshotOf = async (of: Live, projection: 'staff' | 'wall' = 'staff') =>
  JSON.parse((await (await of.snapshot(WARD, projection)).body('identity')).toString()) as BoardSnapshot;

/** What a board does: starts from a snapshot and lays on it what fits. */
function followed(start: BoardSnapshot, deltas: readonly BoardDelta[]) {
  let position = start.position;
  const rows = new Map(start.rows.map((row) => [row.patient.id, row]));
  for (const delta of deltas) {
    if (delta.from !== position) continue;
    for (const row of delta.rows) rows.set(row.patient.id, row);
    for (const id of delta.gone) rows.delete(id);
    position = delta.to;
  }
  return { position, rows };
}

describe('the snapshot', () => {
  test('is the same bytes plain and compressed, and the same object until something happens', async () => {
    const one = await live();
    const snapshot = await one.snapshot(WARD, 'staff');
    const plain = await snapshot.body('identity');
    expect(gunzipSync(await snapshot.body('gzip'))).toEqual(plain);
    expect(brotliDecompressSync(await snapshot.body('br'))).toEqual(plain);
    expect(await one.snapshot(WARD, 'staff')).toBe(snapshot);
    await weigh(70);
    await until(async () => (await one.snapshot(WARD, 'staff')).etag !== snapshot.etag);
    expect((await one.snapshot(WARD, 'staff')).position).toBeGreaterThan(snapshot.position);
  });

  test('for the wall has no name, birth date or number', async () => {
    const one = await live();
    await inBed(ward, '9', Date.now() - HOUR_MS, { family: 'Unmistakable' });
    await until(async () => (await snapshotOf(one)).rows.some((row) => row.patient.family === 'Unmistakable'));
    const text = (await (await one.snapshot(WARD, 'wall')).body('identity')).toString();
    expect(text).not.toMatch(/Unmistakable|1960-05-17|hospitalNumber/);
    expect((JSON.parse(text) as WallSnapshot).rows.map((row) => row.initials)).toContain('U. P.');
  });

  test('a changed name takes a position and reaches the board', async () => {
    const one = await live();
    const board = await join(one);
    const { position } = await one.snapshot(WARD, 'staff');
    await ward.record.changeIdentity(
      {
        siteId: SITE,
        wardId: WARD,
        patientId: bed.patientId,
        accountId: ward.actors.charge.accountId,
        fields: ['family'],
      },
      (client) =>
        client.query('UPDATE patient SET family = $2 WHERE id = $1 AND site_id = $3', [bed.patientId, 'Renamed', SITE]),
    );
    await until(() => board.rows.some(({ data }) => data.rows.some((row) => row.patient.family === 'Renamed')));
    expect((await one.snapshot(WARD, 'staff')).position).toBe(position + 1);
  });
});

describe('a stream', () => {
  test('begins with a beat that says epoch, position, the database’s time, build, and who watches', async () => {
    const one = await live();
    const board = await join(one);
    const { position, epoch } = await snapshotOf(one);
    expect(board.events[0]).toMatchObject({
      event: 'beat',
      data: { epoch, position, build: 'test', alarmsThrough: 1_000, serverAt: expect.any(Number) },
    });
  });

  test('is ordered, without repeats or gaps, whole in each event, and ends where the snapshot stands', async () => {
    const one = await live();
    const board = await join(one);
    const start = await snapshotOf(one);
    const beds = await Promise.all(['21', '22', '23', '24'].map((name) => inBed(ward, name, Date.now() - 6 * HOUR_MS)));
    await Promise.all(
      beds.map((each) => mustAppend(ward, ward.actors.nurse, exchange(each, Date.now() - HOUR_MS, null))),
    );
    await Promise.all(Array.from({ length: 20 }, (_, index) => weigh(60 + index, beds[index % 4]!.patientId)));
    const { rows } = await db.query('SELECT position FROM ward_counter WHERE ward_id = $1', [WARD]);
    await until(() => board.rows.at(-1)?.data.to === rows[0].position);

    const deltas = board.rows.map(({ data }) => data);
    expect(deltas.map(({ from }) => from)).toEqual([start.position, ...deltas.slice(0, -1).map(({ to }) => to)]);
    expect(board.rows.map(({ id }) => id)).toEqual(deltas.map(({ to }) => to));
    const mine = followed(start, deltas);
    const end = await snapshotOf(one);
    expect(mine.position).toBe(end.position);
    expect([...mine.rows.values()].toSorted(byPatient)).toEqual([...end.rows].toSorted(byPatient));
    // Atomic: an exchange of eight entries was one batch, so no board ever saw it half done.
    for (const delta of deltas) {
      for (const row of delta.rows)
        if (beds.some(({ patientId }) => patientId === row.patient.id)) expect(row.visit).toBeNull();
    }
  });

  test('that broke off resumes where it was, also at another process', async () => {
    const [one, two] = [await live(), await live()];
    const start = await snapshotOf(one);
    await weigh(81);
    await weigh(82);
    await until(async () => (await two.snapshot(WARD, 'staff')).position === start.position + 2);
    const board = await join(two, start.position);
    expect(board.events[0]).toMatchObject({ event: 'rows', data: { from: start.position, to: start.position + 2 } });
    const mine = followed(start, [board.events[0]!.data]);
    expect([...mine.rows.values()].toSorted(byPatient)).toEqual([...(await snapshotOf(two)).rows].toSorted(byPatient));
  });

  test('tells a board that joins an old process’s position who has left since', async () => {
    const old = await live();
    const leaving = await inBed(ward, '30', Date.now() - 2 * HOUR_MS);
    await until(async () => (await snapshotOf(old)).rows.some((row) => row.patient.id === leaving.patientId));
    const start = await snapshotOf(old);
    await mustAppend(ward, ward.actors.charge, [
      draft(
        'transferredOut',
        { toWardId: OTHER_WARD, ...(await toldOfFluid(db, leaving.patientId)) },
        { patientId: leaving.patientId, happenedAt: Date.now() },
      ),
      draft('transferredIn', { fromWardId: WARD, bed: '30' }, { patientId: leaving.patientId, happenedAt: Date.now() }),
    ]);
    const board = await join(await live(), start.position);
    expect(board.events[0]?.data.gone).toEqual([leaving.patientId]);
    await until(async () => !(await snapshotOf(old)).rows.some((row) => row.patient.id === leaving.patientId));
  });

  test('marks a like name at both beds as soon as its second bearer comes, moves and goes', async () => {
    const one = await live();
    const first = await inBed(ward, '33', Date.now() - HOUR_MS, { family: 'Quennell' });
    const likeOfFirst = async () =>
      (await snapshotOf(one)).rows.find((row) => row.patient.id === first.patientId)?.likeNameBeds.join();
    await until(async () => (await likeOfFirst()) === '');
    const board = await join(one);
    const { patientId } = await inBed(ward, '34', Date.now() - HOUR_MS, { family: 'Quennell' });
    await until(async () => (await likeOfFirst()) === '34');
    const told = board.rows.flatMap(({ data }) => data.rows).filter((row) => row.patient.id === first.patientId);
    expect(told.at(-1)?.likeNameBeds).toEqual(['34']);
    const at = { patientId, happenedAt: Date.now() };
    await mustAppend(ward, ward.actors.charge, [draft('movedBed', { bed: '35' }, at)]);
    await until(async () => (await likeOfFirst()) === '35');
    await mustAppend(ward, ward.actors.charge, [
      draft('transferredOut', { toWardId: OTHER_WARD, ...(await toldOfFluid(db, patientId)) }, at),
      draft('transferredIn', { fromWardId: WARD, bed: '35' }, at),
    ]);
    await until(async () => (await likeOfFirst()) === '');
  });

  test('works with NOTIFY switched off: the comparison of positions finds what is new', async () => {
    const one = await live({ deaf: true });
    const board = await join(one);
    const { position } = await weigh(90);
    await until(() => board.rows.at(-1)?.data.to === position);
    expect(board.rows).toHaveLength(1);
  });

  test('with too much unsent is destroyed, the others go on', async () => {
    const one = await live();
    const [slow, quick] = [await join(one), await join(one)];
    slow.writableLength = MOST_UNSENT_BYTES + 1;
    const { position } = await weigh(91);
    await until(() => quick.rows.at(-1)?.data.to === position);
    expect([slow.isDestroyed, slow.rows.length, quick.isDestroyed]).toEqual([true, 0, false]);
    expect(one.status().streams).toBe(1);
  });

  test('leaves no connection behind that was just being made again when the server closed', async () => {
    const one = await live();
    const admin = pool(database.superUrl, 1);
    const pid = (clients[0] as unknown as { processID: number }).processID;
    await admin.query('SELECT pg_terminate_backend($1)', [pid]);
    await close(admin);
    await until(() => clients.length === 2);
    const again = clients[1]!;
    let isEnded = false;
    again.on('end', () => {
      isEnded = true;
    });
    await one.stop();
    await until(() => isEnded);
  });

  test('ends when the listening connection is lost, and joins again once it is back', async () => {
    const one = await live();
    const board = await join(one);
    const admin = new pg.Client({ connectionString: database.superUrl });
    await admin.connect();
    const pid = (clients[0] as unknown as { processID: number }).processID;
    await admin.query('SELECT pg_terminate_backend($1)', [pid]);
    await admin.end();
    await until(() => board.isEnded);
    const { position } = await weigh(92);
    // Not listening, the process asks the database before it answers.
    expect((await one.snapshot(WARD, 'staff')).position).toBe(position);
    await until(() => one.status().listening);
    const again = await join(one);
    const next = await weigh(93);
    await until(() => again.rows.at(-1)?.data.to === next.position);
  });

  test('ends when the server closes', async () => {
    const one = await live();
    const board = await join(one);
    one.endStreams();
    expect(board.isEnded).toBe(true);
  });
});

test('another epoch, as after a restore, makes a board of every process start afresh', async () => {
  const one = await live();
  const board = await join(one);
  const before = board.events[0]!.data.epoch;
  const owner = pool(database.ownerUrl, 1);
  await owner.query('UPDATE epoch SET epoch = gen_random_uuid()');
  await close(owner);
  await until(() => board.events.at(-1)?.event === 'beat' && board.events.at(-1)?.data.epoch !== before);
  expect((await snapshotOf(one)).epoch).not.toBe(before);
});

const byPatient = (a: { patient: { id: string } }, b: { patient: { id: string } }) =>
  a.patient.id < b.patient.id ? -1 : 1;
