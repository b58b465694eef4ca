import { randomUUID } from 'node:crypto';
import type { EpochMs } from '@slackwater/domain';
import type { Pool, PoolClient } from 'pg';
import { epochMs, NOW_MS } from '../../record/instants.ts';
import type { Policies, PolicyVersions } from '../../record/policies.ts';
import { openDwellCopy } from './import.dwells.ts';
import { type Folding, type FreshRow, foldPatient } from './import.fold.ts';
import { judgeStaged } from './import.judge.ts';
import { addPeople, type PersonProblem, readPeople } from './import.people.ts';
import { BadRowCollector, type BadRows, NO_BAD_ROWS, together } from './import.problems.ts';
import { publish } from './import.publish.ts';
import { stage } from './import.stage.ts';

export type ImportSheet = {
  siteId: string;
  /** The bytes of the flow sheet. */
  source: AsyncIterable<Uint8Array>;
  /** The bytes of the file of people; null: all patients must be known. */
  people: AsyncIterable<Uint8Array> | null;
  /** Only rows of this ward; null: of every ward. */
  onlyWard: string | null;
  /** Who imports; null: the command, on the server's own machine. */
  author: string | null;
  onProgress?: (progress: ImportProgress) => void;
};

/** `of` is null while the file is being read: how many rows it has is not known yet. */
export type ImportProgress = { doing: 'reading' | 'folding' | 'publishing'; done: number; of: number | null };

export type Imported = { rows: number; added: number; known: number; patients: number; peopleAdded: number };

/** What was wrong; then nothing was changed. */
export type NotImported = {
  rows: number;
  bad: BadRows;
  people: readonly PersonProblem[];
  /** Hospital numbers under which somebody else is known. */
  otherPeople: readonly string[];
};

export type ImportResult = { imported: Imported } | { refused: NotImported };

/** Any number that nothing else in this database takes: one import at a time, so that two never wait for each other. */
const LOCK = 72_707_372;

/**
 * Brings a flow sheet of past exchanges into the record, whole or not at all. The rows go to a staging table by COPY,
 * are judged there, folded patient by patient, and published ward by ward at the end of the same transaction.
 * @throws SheetError where the file is no sheet
 */
export async function importSheet(pool: Pool, policies: Policies, sheet: ImportSheet): Promise<ImportResult> {
  const client = await pool.connect();
  try {
    await client.query('BEGIN');
    await client.query('SELECT pg_advisory_xact_lock($1)', [LOCK]);
    const result = await importIn(client, policies, sheet);
    await client.query('imported' in result ? 'COMMIT' : 'ROLLBACK');
    client.release();
    return result;
  } catch (error) {
    // The connection may hang in the middle of a COPY: it does not go back to the others.
    client.release(error as Error);
    throw error;
  }
}

async function importIn(client: PoolClient, policies: Policies, sheet: ImportSheet): Promise<ImportResult> {
  const { siteId, author, onlyWard } = sheet;
  const importId = randomUUID();
  const wards = await readWards(client, policies, siteId);
  const refused = (rows: number, change: Partial<NotImported>): ImportResult => ({
    refused: { rows, bad: NO_BAD_ROWS, people: [], otherPeople: [], ...change },
  });

  const known = await addKnown(client, sheet);
  if (known.people.length + known.otherPeople.length > 0) return refused(0, known);

  const settings = new Map([...wards.policies].map(([wardId, policy]) => [wardId, policy.settings]));
  const source = told(sheet.source, (done) => sheet.onProgress?.({ doing: 'reading', done, of: null }));
  const staged = await stage(client, { siteId, importId, source, settings, now: wards.now });
  const judged = await judgeStaged(client, siteId, importId, onlyWard);
  const bad = together(staged.bad, judged);
  if (bad.count > 0) return refused(staged.rows, { bad });

  const folding: Folding = {
    siteId,
    author,
    now: wards.now,
    policyOf: (wardId) => wards.policies.get(wardId)!,
    dwells: openDwellCopy(client),
  };
  const { rowCount: already } = await client.query(FORGET_KNOWN, [siteId, importId]);
  const folded = await foldAll(client, folding, importId, staged.rows - (already ?? 0), sheet.onProgress);
  if (folded.bad.count > 0) return refused(staged.rows, { bad: folded.bad });
  // The counters last and the lower ward first, as every writer takes them.
  for (const wardId of [...folded.wardIds].sort()) {
    sheet.onProgress?.({ doing: 'publishing', done: folded.rows, of: folded.rows });
    await publish(client, { siteId, wardId, importId, author });
  }
  await client.query('DELETE FROM import_row WHERE site_id = $1 AND import_id = $2', [siteId, importId]);
  const { rows: added, patients } = folded;
  return { imported: { rows: staged.rows, added, known: staged.rows - added, patients, peopleAdded: known.added } };
}

async function addKnown(client: PoolClient, { siteId, people: source }: ImportSheet) {
  if (source === null) return { added: 0, people: [], otherPeople: [] };
  const { people, problems } = await readPeople(source);
  if (problems.length > 0) return { added: 0, people: problems, otherPeople: [] };
  const { added, others } = await addPeople(client, siteId, people);
  return { added, people: [], otherPeople: others };
}

type WardRow = PolicyVersions & { wardId: string; now: EpochMs };

/** $1 site */
const READ_WARDS = `
SELECT ward.id AS "wardId", ward.settings_version AS "settingsVersion", site.formulary_version AS "formularyVersion",
  ${NOW_MS} AS now
FROM ward JOIN site ON site.id = ward.site_id WHERE ward.site_id = $1`;

async function readWards(client: PoolClient, policies: Policies, siteId: string) {
  const { rows } = await client.query<WardRow>(READ_WARDS, [siteId]);
  const found = new Map<string, Awaited<ReturnType<Policies['of']>>>();
  for (const row of rows) found.set(row.wardId, await policies.of(client, siteId, row.wardId, row));
  return { policies: found, now: rows[0]?.now ?? 0 };
}

async function* told(source: AsyncIterable<Uint8Array>, tell: (bytes: number) => void) {
  let bytes = 0;
  for await (const chunk of source) {
    bytes += chunk.length;
    tell(bytes);
    yield chunk;
  }
}

/** What stands in the record already is not looked at again. $1 site, $2 import */
const FORGET_KNOWN = `
DELETE FROM import_row AS sheet WHERE site_id = $1 AND import_id = $2
  AND EXISTS (SELECT FROM entry WHERE entry.site_id = sheet.site_id AND entry.id = sheet.id)`;

/**
 * The rows to come in, patient by patient: those who lie on a ward last, so that their bedsides are
 * held only shortly. $1 site, $2 import
 */
const OPEN_FRESH = `
DECLARE fresh NO SCROLL CURSOR FOR
SELECT sheet.line, sheet.id, patient.id AS "patientId", sheet.ward_id AS "wardId",
  ${epochMs('sheet.ended_at')} AS "endedAt", sheet.payload
FROM import_row AS sheet
JOIN patient ON patient.site_id = sheet.site_id AND patient.hospital_number = sheet.hospital_number
LEFT JOIN bedside ON bedside.site_id = patient.site_id AND bedside.patient_id = patient.id
WHERE sheet.site_id = $1 AND sheet.import_id = $2
ORDER BY bedside.ward_id IS NOT NULL, patient.id, sheet.ended_at, sheet.started_at`;

const FETCH = 'FETCH 1000 FROM fresh';

async function* freshByPatient(client: PoolClient, siteId: string, importId: string) {
  await client.query(OPEN_FRESH, [siteId, importId]);
  let rows: FreshRow[] = [];
  for (;;) {
    const { rows: fetched } = await client.query<FreshRow>(FETCH);
    if (fetched.length === 0) break;
    for (const row of fetched) {
      if (rows.length > 0 && rows[0]!.patientId !== row.patientId) {
        yield rows;
        rows = [];
      }
      rows.push(row);
    }
  }
  if (rows.length > 0) yield rows;
  await client.query('CLOSE fresh');
}

async function foldAll(
  client: PoolClient,
  folding: Folding,
  importId: string,
  of: number,
  onProgress: ImportSheet['onProgress'],
) {
  const wardIds = new Set<string>();
  const bad = new BadRowCollector();
  let rows = 0;
  let patients = 0;
  for await (const some of freshByPatient(client, folding.siteId, importId)) {
    for (const problem of await foldPatient(client, folding, some)) bad.add([problem]);
    for (const { wardId } of some) wardIds.add(wardId);
    rows += some.length;
    patients += 1;
    onProgress?.({ doing: 'folding', done: rows, of });
  }
  await folding.dwells.flush();
  return { rows, patients, wardIds, bad: bad.found };
}
