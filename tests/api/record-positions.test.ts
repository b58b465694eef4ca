import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { HOUR_MS } from '@slackwater/domain';
import type pg from 'pg';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { verify } from '../../apps/api/src/record/verify.ts';
import { type FreshDatabase, freshDatabase } from '../support/database.ts';
import type { WriterJob } from './processes/writer.ts';
import { close, inBed, pool, SITE, type TestWard, testWard, WARD } from './record-ward.ts';

let database: FreshDatabase;
let db: pg.Pool;
let ward: TestWard;
beforeAll(async () => {
  database = await freshDatabase();
  db = pool(database.appUrl);
  ward = await testWard(db);
});
afterAll(async () => {
  await close(db);
  await database.drop();
});

/** Runs a writer in a process of its own; answers what it was told: entry ids with their positions. */
function writer(job: WriterJob): Promise<[string, number][]> {
  const child = spawn(process.execPath, [
    join(import.meta.dirname, 'processes/writer.ts'),
    database.appUrl,
    JSON.stringify(job),
  ]);
  let out = '';
  let errors = '';
  child.stdout.on('data', (chunk) => {
    out += chunk;
  });
  child.stderr.on('data', (chunk) => {
    errors += chunk;
  });
  return new Promise((resolve, reject) => {
    child.on('error', reject);
    child.on('close', (code) => {
      if (code !== 0) return reject(new Error(errors));
      const lines = out.trim().split('\n');
      resolve(lines.map((line) => [line.split(' ')[0]!, Number(line.split(' ')[1])]));
    });
  });
}

test('eight writers in two processes: positions without a gap, in the order of commit', {
  timeout: 60_000,
}, async () => {
  const before = 8 * 2;
  const beds = await Promise.all(
    Array.from({ length: 8 }, (_, index) => inBed(ward, String(index + 1), Date.now() - HOUR_MS)),
  );
  const { accountId } = ward.actors.nurse;
  const rounds = 25;
  const jobs = [beds.slice(0, 4), beds.slice(4)].map((some) => ({
    rounds,
    accountId,
    patientIds: some.map(({ patientId }) => patientId),
  }));

  let isWriting = true;
  const watched = watch(() => isWriting);
  const told = (await Promise.all(jobs.map(writer))).flat();
  isWriting = false;
  const looks = await watched;

  const { rows } = await db.query<{ id: string; position: number }>(
    'SELECT id, position FROM entry WHERE ward_id = $1 ORDER BY position',
    [WARD],
  );
  expect(rows.length).toBeGreaterThanOrEqual(before + 8 * rounds);
  expect(rows.map(({ position }) => position)).toEqual(rows.map((_, index) => index + 1));
  // Every writer was told the position at which its entry stands.
  const positionOf = new Map(rows.map(({ id, position }) => [id, position]));
  expect(told).toHaveLength(8 * rounds);
  for (const [id, position] of told) expect(positionOf.get(id)).toBe(position);
  // In commit order: nobody ever saw an entry whose predecessor was not there yet.
  expect(looks.length).toBeGreaterThan(10);
  for (const { highest, count, counter } of looks) expect([highest, counter]).toEqual([count, count]);
  expect((await verify(db, SITE)).faults).toEqual([]);
});

type Look = { highest: number; count: number; counter: number };

/** Looks at the ward again and again while others write, each time in one snapshot. */
async function watch(goOn: () => boolean): Promise<Look[]> {
  const looks: Look[] = [];
  while (goOn()) {
    const { rows } = await db.query<Look>(
      `SELECT max(position) AS highest, count(*)::int AS count,
        (SELECT position FROM ward_counter WHERE ward_id = $1) AS counter FROM entry WHERE ward_id = $1`,
      [WARD],
    );
    looks.push(rows[0]!);
    await setTimeout(3);
  }
  return looks;
}
