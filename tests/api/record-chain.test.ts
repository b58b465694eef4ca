import { createHash } from 'node:crypto';
import { setTimeout } from 'node:timers/promises';
import { HOUR_MS } from '@slackwater/domain';
import pg from 'pg';
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest';
import { erase } from '../../apps/api/src/record/erase.ts';
import { tellHeads } from '../../apps/api/src/record/tell-heads.ts';
import { verify } from '../../apps/api/src/record/verify.ts';
import { type FreshDatabase, freshDatabase } from '../support/database.ts';
import {
  close,
  draft,
  exchange,
  inBed,
  mustAppend,
  mustFail,
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
/** Somebody with the machine in his hands: even the triggers do not stop a superuser. */
let intruder: pg.Client;
let ward: TestWard;
let bed: Prescribed;
beforeAll(async () => {
  database = await freshDatabase();
  db = pool(database.appUrl);
  ward = await testWard(db);
  intruder = new pg.Client({ connectionString: database.superUrl });
  await intruder.connect();
  bed = await inBed(ward, '1', Date.now() - 6 * HOUR_MS);
  await mustAppend(ward, ward.actors.nurse, exchange(bed, Date.now() - HOUR_MS, null));
});
beforeEach(async () => {
  expect((await verify(db, SITE)).faults).toEqual([]);
});
afterAll(async () => {
  await intruder.end();
  await close(db);
  await database.drop();
});

/** Does what nobody may, looks, and puts it back. */
async function tamper(sql: string, look: () => Promise<void>): Promise<void> {
  for (const table of ['entry', 'entry_payload']) await intruder.query(`ALTER TABLE ${table} DISABLE TRIGGER ALL`);
  const kept = await intruder
    .query('CREATE TABLE kept_entry AS TABLE entry')
    .then(() => intruder.query('CREATE TABLE kept_payload AS TABLE entry_payload'));
  expect(kept.rowCount).toBeGreaterThan(0);
  await intruder.query('CREATE TABLE kept_counter AS TABLE ward_counter');
  try {
    expect((await intruder.query(sql)).rowCount).toBeGreaterThan(0);
    await look();
  } finally {
    await intruder.query(`DELETE FROM entry_payload; DELETE FROM entry; DELETE FROM ward_counter;
      INSERT INTO entry TABLE kept_entry; INSERT INTO entry_payload TABLE kept_payload;
      INSERT INTO ward_counter TABLE kept_counter; DROP TABLE kept_entry, kept_payload, kept_counter`);
    for (const table of ['entry', 'entry_payload']) await intruder.query(`ALTER TABLE ${table} ENABLE TRIGGER ALL`);
    for (const table of ['entry', 'entry_payload']) {
      await intruder.query(`ALTER TABLE ${table} ENABLE ALWAYS TRIGGER append_only`);
    }
  }
}

const TARGET = `position = 5 AND ward_id = '${WARD}'`;

test.each([
  [
    'one flipped bit of a payload',
    `UPDATE entry_payload SET bytes = set_bit(bytes, 9, 1 - get_bit(bytes, 9))
     WHERE entry_id = (SELECT id FROM entry WHERE ${TARGET})`,
    'The payload is not the one that was recorded.',
  ],
  [
    'another author',
    `UPDATE entry SET author_id = (SELECT id FROM account WHERE name = 'Otto Ward') WHERE ${TARGET}`,
    'The entry, or its place in the chain, is not the one that was recorded.',
  ],
  [
    'another time',
    `UPDATE entry SET happened_at = happened_at - interval '1 minute' WHERE ${TARGET}`,
    'The entry, or its place in the chain, is not the one that was recorded.',
  ],
  [
    'another time of arrival',
    `UPDATE entry SET received_at = received_at - interval '1 ms' WHERE ${TARGET}`,
    'The entry, or its place in the chain, is not the one that was recorded.',
  ],
  [
    'a payload taken away',
    `DELETE FROM entry_payload WHERE entry_id = (SELECT id FROM entry WHERE ${TARGET})`,
    'The payload is missing, and nobody was erased by law.',
  ],
] as const)('%s is found, and where', async (_, sql, what) => {
  await tamper(sql, async () => {
    expect((await verify(db, SITE)).faults).toContainEqual({ wardId: WARD, position: 5, what });
  });
});

test('an entry taken out of the middle is found', async () => {
  await tamper(`DELETE FROM entry WHERE ${TARGET}`, async () => {
    expect((await verify(db, SITE)).faults).toContainEqual(
      expect.objectContaining({ position: 6, what: 'Entries 5 to 5 are missing.' }),
    );
  });
});

test('a cut tail is found by the counter, and by a head written down before even where the counter was set back', async () => {
  const { wards } = await verify(db, SITE);
  const anchor = wards.find(({ wardId }) => wardId === WARD)!;
  expect((await verify(db, SITE, [anchor])).faults).toEqual([]);
  const cut = `DELETE FROM entry WHERE ward_id = '${WARD}' AND position = ${anchor.position}`;
  await tamper(cut, async () => {
    expect((await verify(db, SITE)).faults).toHaveLength(1);
    await intruder.query(
      `UPDATE ward_counter SET position = position - 1, digest = (SELECT digest FROM entry WHERE ward_id = $1
        AND position = ward_counter.position - 1) WHERE ward_id = $1`,
      [WARD],
    );
    expect((await verify(db, SITE)).faults).toEqual([]);
    expect((await verify(db, SITE, [anchor])).faults).toEqual([
      { wardId: WARD, position: anchor.position, what: 'The head that was written down is not in the chain.' },
    ]);
  });
});

test('the digest of the first entry is the sha256 that the decision describes', async () => {
  const { rows } = await db.query(
    `SELECT entry.*, (extract(epoch FROM happened_at) * 1000)::float8 AS happened,
      (extract(epoch FROM device_at) * 1000)::float8 AS device,
      (extract(epoch FROM received_at) * 1000)::float8 AS received, salt, bytes
    FROM entry JOIN entry_payload ON entry_id = id WHERE ward_id = $1 AND position = 1`,
    [WARD],
  );
  const row = rows[0];
  const sha256 = (...parts: Buffer[]) => createHash('sha256').update(Buffer.concat(parts)).digest();
  const content = sha256(row.salt, row.bytes);
  const header = JSON.stringify([
    row.site_id,
    row.ward_id,
    row.id,
    row.patient_id,
    row.sequence,
    row.visit_id,
    row.kind,
    row.format,
    row.happened,
    row.device,
    row.author_id,
    row.after,
    row.target,
  ]);
  const numbers = Buffer.alloc(16);
  numbers.writeBigInt64BE(1n, 0);
  numbers.writeBigInt64BE(BigInt(row.received), 8);
  expect(sha256(Buffer.alloc(32), sha256(Buffer.from(header), content), numbers)).toEqual(row.digest);
});

test('a lawful erasure takes names and payloads, and leaves the chain whole with an entry that says so', async () => {
  const owner = pool(database.ownerUrl, 1);
  const gone = await inBed(ward, '2', Date.now() - 6 * HOUR_MS, { family: 'Vanishing' });
  await mustAppend(ward, ward.actors.nurse, exchange(gone, Date.now() - HOUR_MS, null));
  const impossible = { weightKg: 7000, cavity: 'full' } as const;
  await mustFail(ward, ward.actors.nurse, [
    draft('weight', impossible, { patientId: gone.patientId, happenedAt: Date.now() }),
  ]);
  const refused = async () =>
    (await db.query('SELECT FROM refused_entry WHERE patient_id = $1', [gone.patientId])).rowCount;
  expect(await refused()).toBe(1);
  await expect(erase(owner, { siteId: SITE, patientId: gone.patientId, reason: 'request' })).rejects.toThrow(
    /discharge first/,
  );
  await mustAppend(ward, ward.actors.charge, [
    draft(
      'discharged',
      { to: 'home', handover: null, ...(await toldOfFluid(db, gone.patientId)) },
      { patientId: gone.patientId, happenedAt: Date.now() },
    ),
  ]);
  await expect(erase(db, { siteId: SITE, patientId: gone.patientId, reason: 'request' })).rejects.toThrow(
    /permission denied/,
  );
  const { entries } = await erase(owner, { siteId: SITE, patientId: gone.patientId, reason: 'request' });
  expect(await refused()).toBe(0);
  await expect(owner.query("UPDATE refused_entry SET kind = 'weight'")).rejects.toThrow(/append-only/);
  await close(owner);
  const { faults, wards } = await verify(db, SITE);
  expect(faults).toEqual([]);
  expect(wards.find(({ wardId }) => wardId === WARD)?.erased).toBe(entries);
  const left = await db.query(
    `SELECT (SELECT count(*)::int FROM patient WHERE family = 'Vanishing') AS names,
      (SELECT count(*)::int FROM dwell WHERE patient_id = $1) AS dwells,
      (SELECT count(*)::int FROM prescription_item JOIN prescription_revision AS r ON r.id = revision_id
        WHERE r.patient_id = $1) AS items,
      (SELECT string_agg(kind, ',') FROM entry JOIN entry_payload ON entry_id = id WHERE patient_id = $1) AS kinds`,
    [gone.patientId],
  );
  expect(left.rows).toEqual([{ names: 0, dwells: 0, items: 0, kinds: 'erased' }]);
});

test('the heads are told again and again, in the words that verify takes', async () => {
  const lines: string[] = [];
  const stop = tellHeads({
    siteId: SITE,
    pool: db,
    tell: (line) => lines.push(line),
    onTrouble: (error) => expect.fail(error.message),
    everyMs: 20,
  });
  while (lines.length < 3) await setTimeout(10);
  await stop();
  const told = lines.length;
  await setTimeout(60);
  expect(lines).toHaveLength(told);
  const [, wardId, position, digest] = /^chain head ([a-z0-9-]+):(\d+):([0-9a-f]{64})$/.exec(lines[0]!)!;
  const { rows } = await db.query(
    "SELECT position, encode(digest, 'hex') AS digest FROM entry WHERE ward_id = $1 ORDER BY position DESC LIMIT 1",
    [wardId],
  );
  expect({ position: Number(position), digest }).toEqual(rows[0]);
});
