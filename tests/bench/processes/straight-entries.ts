// node straight-entries.ts DATABASE_URL AUTHOR PATIENT …: writes a weight for each patient as often as it can, by the
// statements of the record itself and nothing else: what they were given is taken down once, from the record, and sent
// again under new ids and versions.
import { randomUUIDv7 } from 'node:crypto';
import { createServer } from 'node:http';
import { createPolicies } from '@slackwater/api/record/policies';
import { createRecord } from '@slackwater/api/record/record';
import { MINUTE_MS } from '@slackwater/domain';
import type pg from 'pg';
import { pool } from '../harness/databases.ts';
import { SITE, WARD } from '../harness/ward.ts';
import { tell } from './listen.ts';

type Asked = { name: string; text: string; values: unknown[] };
type Numbered = Record<string, unknown>;

const [databaseUrl, accountId, ...patientIds] = process.argv.slice(2);
const db = pool(databaseUrl!, patientIds.length);

/** Takes down what the record asks of the database for one weight. */
async function takeDown(patientId: string): Promise<{ id: string; asked: readonly Asked[] }> {
  const asked: Asked[] = [];
  const query = (what: Asked) => {
    asked.push(what);
    return db.query(what);
  };
  const record = createRecord({ pool: { query } as unknown as pg.Pool, policies });
  const id = randomUUIDv7();
  const happenedAt = Date.now() - MINUTE_MS;
  const weight = { weightKg: 70, cavity: 'full' } as const;
  const draft = {
    id,
    kind: 'weight',
    format: 1,
    payload: weight,
    patientId,
    visitId: null,
    happenedAt,
    after: null,
  } as const;
  const author = { accountId: accountId!, role: 'nurse' } as const;
  const result = await record.append({ siteId: SITE, wardId: WARD, author, deviceAt: Date.now(), drafts: [draft] });
  if (!result.ok) throw new Error(JSON.stringify(result.failure));
  return { id, asked };
}

const policies = createPolicies();
// once before, so that what is read only the first time is not taken down
await takeDown(patientIds[0]!);
const writers = await Promise.all(patientIds.map(async (patientId) => writerOf(await takeDown(patientId))));

/** One weight: read, then write over the version that was read. */
function writerOf({ id: firstId, asked }: { id: string; asked: readonly Asked[] }) {
  const [reading, writing, ...more] = asked;
  if (!reading || !writing || more.length > 0) throw new Error(`A weight took ${asked.length} statements, not two.`);
  const [site, amount, bedsidesText, entriesText, ward, ...tables] = writing.values as [
    string,
    number,
    string,
    string,
    string,
    ...string[],
  ];
  const [bedside] = JSON.parse(bedsidesText) as [Numbered];
  const [entry] = JSON.parse(entriesText) as [Numbered];
  return async () => {
    const { rows } = await db.query(reading);
    const version = rows[0].version as number;
    const id = randomUUIDv7();
    const bedsides = JSON.stringify([{ ...bedside, seen: version, version: version + 1 }]);
    const entries = JSON.stringify([{ ...entry, id, sequence: version + 1 }]);
    const rest = tables.map((text) => text.replaceAll(firstId, id));
    const written = await db.query({ ...writing, values: [site, amount, bedsides, entries, ward, ...rest] });
    if (written.rowCount !== 1) throw new Error('Another writer was at this bed.');
  };
}

const server = createServer(async (request, response) => {
  const windowMs = Number(new URL(request.url!, 'http://bench').searchParams.get('windowMs'));
  const startedAt = performance.now();
  let written = 0;
  await Promise.all(
    writers.map(async (write) => {
      while (performance.now() - startedAt < windowMs) {
        await write();
        written += 1;
      }
    }),
  );
  response.end(JSON.stringify({ written, tookMs: performance.now() - startedAt }));
});
server.listen(0, '127.0.0.1', () => tell(server));
