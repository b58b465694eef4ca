import { type BedsideState, type Entry, type EpochMs, FOLD_VERSION } from '@slackwater/domain';
import type { Pool, PoolClient } from 'pg';
import { type Decision, decide } from '../record/decide.ts';
import { iso, isoOrNull } from '../record/instants.ts';
import type { Policies } from '../record/policies.ts';
import { rebuildIn } from '../record/rebuild.ts';
import { FOLDED_TABLE_NAMES, type FoldedRows } from '../record/rows/tables.ts';
import { readHistory, readStandingEntries } from '../record/standing.ts';
import { write } from '../record/write.ts';
import type { Hook } from './hooks/hook.ts';
import { deliveriesOf } from './hooks/message.ts';
import { MOVE_ON, TAKE_DUE } from './sweep.sql.ts';

/** As many as one transaction takes: many for 2,000 due at once, few enough that nobody at these beds waits 200 ms. */
const MOST_AT_ONCE = 200;
/** Of these, as many as are folded anew: each reads its whole history. */
const MOST_ANEW = 10;
/** A bedside that cannot be decided about is tried again after this. */
const AGAIN_AFTER_MS = 30_000;

type Due = {
  patientId: string;
  wardId: string | null;
  version: number;
  state: BedsideState | null;
  foldVersion: number;
  settingsVersion: number | null;
  formularyVersion: number;
  now: EpochMs;
};

type Swept = { due: Due; decision: Decision };

/** What one sweep did: how many bedsides it took, and those that it could not decide about. */
export type SweepResult = { taken: number; failed: readonly Failed[] };

/** `at`: when it was tried; `againAt`: when it is tried again. */
type Failed = { patientId: string; at: EpochMs; againAt: EpochMs; error: Error };

/**
 * Takes some bedsides of one ward whose instant has come, and writes what the tool must say about them together with
 * the instant at which it must look again. What another process holds is left to it; what a killed one held comes free.
 */
export async function sweep(
  pool: Pool,
  policies: Policies,
  siteId: string,
  hooks: readonly Hook[] = [],
): Promise<SweepResult> {
  const client = await pool.connect();
  try {
    await client.query('BEGIN');
    const result = await sweepIn(client, policies, siteId, hooks);
    await client.query('COMMIT');
    client.release();
    return result;
  } catch (error) {
    // A connection in an unknown state does not go back to the others.
    client.release(error as Error);
    throw error;
  }
}

async function sweepIn(
  client: PoolClient,
  policies: Policies,
  siteId: string,
  hooks: readonly Hook[],
): Promise<SweepResult> {
  const { rows: found } = await client.query<Due>({ ...TAKE_DUE, values: [siteId, MOST_AT_ONCE] });
  const rows = [...found.filter((due) => !isStale(due)), ...found.filter(isStale).slice(0, MOST_ANEW)];
  const swept: Swept[] = [];
  const failed: Failed[] = [];
  for (const due of rows) {
    try {
      swept.push({ due, decision: await decideAbout(client, policies, siteId, due) });
    } catch (error) {
      failed.push({ patientId: due.patientId, at: due.now, againAt: due.now + AGAIN_AFTER_MS, error: error as Error });
    }
  }
  await writeAll(client, siteId, hooks, swept);
  await moveOn(client, siteId, [
    ...swept
      .filter(({ decision }) => decision.entries.length === 0)
      .map(({ due, decision }) => moved(due, decision.nextChangeAt)),
    ...rows
      .filter((due) => failed.some(({ patientId }) => patientId === due.patientId))
      .map((due) => moved(due, due.now + AGAIN_AFTER_MS)),
  ]);
  return { taken: rows.length, failed };
}

/** Of an earlier release, or of settings that were changed since. */
const isStale = ({ foldVersion }: Due) => foldVersion !== FOLD_VERSION;

async function decideAbout(client: PoolClient, policies: Policies, siteId: string, due: Due): Promise<Decision> {
  const { patientId, wardId, version, now, formularyVersion } = due;
  if (wardId === null || due.settingsVersion === null || due.state === null) return nothingToSay(due);
  const policy = await policies.of(client, siteId, wardId, { settingsVersion: due.settingsVersion, formularyVersion });
  const state = isStale(due) ? await rebuildIn(client, policies, siteId, patientId) : due.state;
  const decided = await decide(
    {
      siteId,
      wardId,
      patientId,
      policy,
      now,
      version,
      state,
      isStale: false,
      deviceAt: null,
      drafts: [],
      author: null,
    },
    {
      history: () => readHistory(client, siteId, patientId),
      standing: () => readStandingEntries(client, siteId, patientId),
    },
  );
  if ('failure' in decided) throw new Error(`The tool refused itself: ${decided.failure.code}.`);
  return decided.decision;
}

/** A patient on no ward has no alerts. */
const nothingToSay = (due: Due): Decision => ({
  entries: [],
  state: due.state as BedsideState,
  nextChangeAt: null,
  rows: {},
  replace: false,
  notices: [],
});

/** Writes what is to be said on one ward with one statement; what had to be folded anew is written by itself. */
async function writeAll(
  client: PoolClient,
  siteId: string,
  hooks: readonly Hook[],
  swept: readonly Swept[],
): Promise<void> {
  const speaking = swept.filter(({ decision }) => decision.entries.length > 0);
  await writeTogether(
    client,
    siteId,
    hooks,
    speaking.filter(({ decision }) => !decision.replace),
    false,
  );
  for (const one of speaking.filter(({ decision }) => decision.replace)) {
    await writeTogether(client, siteId, hooks, [one], true);
  }
}

async function writeTogether(
  client: PoolClient,
  siteId: string,
  hooks: readonly Hook[],
  some: readonly Swept[],
  replace: boolean,
): Promise<void> {
  const wardId = some[0]?.due.wardId;
  if (!wardId) return;
  const written = await write(client, {
    siteId,
    wardId,
    bedsides: some.map(({ due, decision }) => ({
      patientId: due.patientId,
      seen: due.version,
      version: due.version + decision.entries.length,
      state: decision.state,
      nextChangeAt: decision.nextChangeAt,
    })),
    entries: some.flatMap<Entry>(({ decision }) => decision.entries),
    rows: together(some.map(({ decision }) => decision.rows)),
    replace,
    settings: null,
    deliveries: some.flatMap(({ decision }) => deliveriesOf(siteId, hooks, decision.notices)),
  });
  if (written === null) throw new Error('A bedside moved on while its row was locked.');
}

const together = (all: readonly FoldedRows[]): FoldedRows =>
  Object.fromEntries(
    FOLDED_TABLE_NAMES.map((table) => [table, all.flatMap((rows): readonly unknown[] => rows[table] ?? [])]),
  );

type Moved = { patient_id: string; version: number; next_change_at: string | null };

const moved = ({ patientId, version, now }: Due, to: EpochMs | null): Moved => ({
  patient_id: patientId,
  version,
  // Never in the past: that would be swept for ever.
  next_change_at: to !== null && to <= now ? iso(now + 1) : isoOrNull(to),
});

async function moveOn(client: PoolClient, siteId: string, all: readonly Moved[]): Promise<void> {
  if (all.length > 0) await client.query({ ...MOVE_ON, values: [siteId, JSON.stringify(all)] });
}
