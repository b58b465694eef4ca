import {
  type Entry,
  type EpochMs,
  FOLD_VERSION,
  fold,
  type Payloads,
  replay,
  type WardPolicy,
} from '@slackwater/domain';
import type { PoolClient } from 'pg';
import { rebuildStatement } from '../../record/append.sql.ts';
import { iso } from '../../record/instants.ts';
import { lookAgainAt } from '../../record/rebuild.ts';
import { allRows } from '../../record/rows/folded-rows.ts';
import { FOLDED_TABLE_NAMES } from '../../record/rows/tables.ts';
import { readHistory } from '../../record/standing.ts';
import { MAKE_BEDSIDE } from '../../record/statements.sql.ts';
import { bedsideRow } from '../../record/write.ts';
import type { DwellCopy } from './import.dwells.ts';
import type { RowProblem } from './import.problems.ts';

/** A staged row as it comes back from the database, of one patient after another, each in the order of time. */
export type FreshRow = {
  line: number;
  id: string;
  patientId: string;
  wardId: string;
  endedAt: EpochMs;
  payload: string;
};

export type Folding = {
  siteId: string;
  /** Who imports; null: the command, on the server's own machine. */
  author: string | null;
  now: EpochMs;
  policyOf: (wardId: string) => WardPolicy;
  /** Takes the dwells of patients who had none; whoever folds flushes it at the end. */
  dwells: DwellCopy;
};

/** $1 site, $2 patient */
const TAKE = `SELECT version, fold_version AS "foldVersion", ward_id AS "wardId"
FROM bedside WHERE site_id = $1 AND patient_id = $2 FOR NO KEY UPDATE`;
type Taken = { version: number; foldVersion: number; wardId: string | null };

/**
 * Folds one patient's rows together with all that is recorded, and writes the bedside and what is folded beside it as
 * they are to stand. The entries themselves are published afterwards, in the same transaction.
 * @returns what the rows contradict; then nothing was written
 */
export async function foldPatient(
  client: PoolClient,
  { siteId, author, now, policyOf, dwells }: Folding,
  rows: readonly FreshRow[],
): Promise<readonly RowProblem[]> {
  const { patientId } = rows[0]!;
  await client.query({ ...MAKE_BEDSIDE, values: [siteId, patientId, FOLD_VERSION] });
  const { rows: taken } = await client.query<Taken>(TAKE, [siteId, patientId]);
  const { version, foldVersion, wardId } = taken[0]!;
  const history = version === 0 ? [] : await readHistory(client, siteId, patientId);
  const added = rows.map((row, index) => entryOf(row, { siteId, author, now }, version + index + 1));
  // As `npm run rebuild` does: under the settings of the ward of the stay, without one of the newest entry's ward.
  const policy = policyOf(wardId ?? rows.at(-1)!.wardId);
  const entries = [...history, ...added];
  const problems =
    history.length === 0 ? undrainedInSheet(rows, added) : undrainedFills(patientId, entries, policy, rows);
  if (problems.length > 0) return problems;

  const { state, dwells: found } = fold(patientId, entries, policy);
  const folded = allRows({ siteId, patientId, policy }, entries, found);
  const isNew = version === 0;
  // The settings may have changed since this import read them: what they marked stays marked.
  const isStale = wardId !== null && foldVersion !== FOLD_VERSION;
  const bedside = {
    patientId,
    seen: version,
    version: version + rows.length,
    state: isStale ? { ...state, foldVersion } : state,
    nextChangeAt: isStale ? now : lookAgainAt(state, now, policy),
  };
  await client.query({
    ...rebuildStatement(),
    values: [
      siteId,
      1,
      JSON.stringify([bedsideRow(bedside)]),
      ...FOLDED_TABLE_NAMES.map((table) => JSON.stringify(isNew && table === 'dwell' ? [] : folded[table])),
    ],
  });
  if (isNew) await dwells.add(folded.dwell);
  return [];
}

function entryOf(
  row: FreshRow,
  { siteId, author, now }: Pick<Folding, 'siteId' | 'author' | 'now'>,
  position: number,
): Entry<'imported'> {
  return {
    id: row.id,
    kind: 'imported',
    format: 1,
    payload: JSON.parse(row.payload) as Payloads['imported'],
    patientId: row.patientId,
    visitId: null,
    happenedAt: row.endedAt,
    after: null,
    siteId,
    wardId: row.wardId,
    deviceAt: null,
    receivedAt: now,
    author,
    position,
  };
}

const UNDRAINED = {
  column: 'fill_start',
  allowed: 'a drain between two fills',
  message: 'fills a cavity whose fluid was not drained',
} as const;

/** The same question where the sheet is all that is known: answered without folding. */
function undrainedInSheet(rows: readonly FreshRow[], entries: readonly Entry<'imported'>[]): readonly RowProblem[] {
  let isFilled = false;
  return entries.flatMap((entry, index) => {
    const wasFilled = isFilled;
    isFilled = entry.payload.fillEndedAt !== null;
    if (!wasFilled || !fillsAlone(entry)) return [];
    return [{ ...UNDRAINED, line: rows[index]!.line, value: iso(entry.payload.fillStartedAt ?? entry.happenedAt) }];
  });
}

/**
 * Rows that fill a cavity in which the fill before them still is, and rows whose own fill a recorded fill met so: no
 * nurse fills twice without a drain, so a row is missing or stands with a wrong time.
 */
function undrainedFills(
  patientId: string,
  entries: readonly Entry[],
  policy: WardPolicy,
  rows: readonly FreshRow[],
): readonly RowProblem[] {
  const lineOf = new Map(rows.map(({ id, line }) => [id, line]));
  const problems: RowProblem[] = [];
  replay(patientId, entries, policy, (before, entry) => {
    if (!fillsAlone(entry) || before.cavity.state !== 'holding') return;
    const inside = before.cavity.fills.at(-1);
    const touched = (before.openDwell ?? before.lastDwells[0])?.id === before.cavity.fills[0]?.entryId;
    const line = lineOf.get(entry.id) ?? lineOf.get(inside?.entryId ?? '');
    if (touched || line === undefined) return;
    problems.push(
      lineOf.has(entry.id)
        ? { ...UNDRAINED, line, value: iso(startOf(entry)) }
        : {
            line,
            column: 'fill_end',
            value: iso(inside?.endedAt ?? before.cavity.since),
            allowed: UNDRAINED.allowed,
            message: 'is followed by a recorded fill without a drain between',
          },
    );
  });
  return problems;
}

const startOf = (entry: Entry): EpochMs =>
  entry.kind === 'imported' ? (entry.payload.fillStartedAt ?? entry.happenedAt) : entry.happenedAt;

function fillsAlone(entry: Entry): boolean {
  if (entry.kind === 'startFill') return true;
  return entry.kind === 'imported' && entry.payload.fillEndedAt !== null && entry.payload.drainEndedAt === null;
}
