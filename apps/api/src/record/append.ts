import { FOLD_VERSION, fold, initialBedside, MINUTE_MS } from '@slackwater/domain';
import type { Pool } from 'pg';
import type { Hook } from '../alarms/hooks/hook.ts';
import { deliveriesOf } from '../alarms/hooks/message.ts';
import { type AppendResult, type Batch, failed, type Receipt } from './batch.ts';
import { explained } from './conflict.ts';
import { decide } from './decide.ts';
import { earlierOf } from './earlier.ts';
import { type AppendFailure, problem } from './failures.ts';
import type { Policies } from './policies.ts';
import type { Reads } from './question.ts';
import { keepRefused } from './refusals.ts';
import { readHistory, readStanding, readStandingEntries, type Standing } from './standing.ts';
import { MAKE_BEDSIDE } from './statements.sql.ts';
import { failureOf } from './violations.ts';
import { appendToWard } from './ward-entries.ts';
import { write } from './write.ts';

/** So often somebody may be faster at one bedside before an author is told to send again. */
const MOST_RACES = 20;

type Attempt = AppendResult | 'again' | 'twice';

/**
 * Writes a batch of entries, whole or not at all.
 *
 * Reads the bedside and its version, asks the domain, and writes with one statement that takes hold only of that
 * version; when somebody was faster it reads and decides again. A batch that stands in the record already is answered
 * with its first receipts.
 */
export async function append(
  pool: Pool,
  policies: Policies,
  batch: Batch,
  hooks: readonly Hook[] = [],
): Promise<AppendResult> {
  for (let race = 0; race < MOST_RACES; race += 1) {
    const attempt = await attemptAt(pool, policies, batch, hooks);
    if (attempt === 'again') continue;
    if (attempt !== 'twice' && attempt.ok) return attempt;
    const earlier = await answerEarlier(pool, policies, batch, hooks);
    if (earlier !== null) return earlier;
    if (attempt === 'twice') continue;
    if (attempt.failure.code === 'refused') await keepRefused(pool, batch, attempt.failure.problems);
    return attempt;
  }
  return failed({ code: 'busy' });
}

async function attemptAt(pool: Pool, policies: Policies, batch: Batch, hooks: readonly Hook[]): Promise<Attempt> {
  const patientId = batch.drafts[0]?.patientId ?? null;
  if (batch.drafts.some((draft) => draft.patientId !== patientId)) return failed(manyPatients());
  const standing = await readStanding(pool, policies, batch.siteId, batch.wardId, patientId);
  if (standing === null || (patientId !== null && !standing.patientKnown)) return failed({ code: 'notFound' });
  const ahead = clockAhead(batch, standing);
  if (ahead !== null) return failed(ahead);
  if (patientId === null) return (await appendToWard(pool, batch, standing)) ?? 'again';

  const elsewhere =
    otherOrigin(batch) ?? lyingElsewhere(batch, standing) ?? (await leftElsewhere(pool, batch, standing));
  if (elsewhere !== null) return failed(elsewhere);
  try {
    return await attemptAtBedside(pool, batch, patientId, standing, hooks);
  } catch (error) {
    const failure = failureOf(error);
    if (failure === null) throw error;
    return failure === 'twice' ? 'twice' : failed(failure);
  }
}

async function attemptAtBedside(
  pool: Pool,
  batch: Batch,
  patientId: string,
  standing: Standing,
  hooks: readonly Hook[],
): Promise<Attempt> {
  const { siteId, wardId, author, deviceAt, drafts, releasedBy = null } = batch;
  const { now, policy, version } = standing;
  if (!standing.bedsideExists) await pool.query({ ...MAKE_BEDSIDE, values: [siteId, patientId, FOLD_VERSION] });
  const seenFold = standing.bedsideExists ? standing.foldVersion : FOLD_VERSION;
  // Who lies nowhere is not folded anew when settings change: it is done by the next entry, which stands under the new.
  const isStale = seenFold !== FOLD_VERSION || standing.wardId === null;
  const reads = readsOf(pool, siteId, patientId);
  const state = isStale
    ? fold(patientId, await reads.history(), policy).state
    : (standing.state ?? initialBedside(patientId));

  const decided = await decide(
    { siteId, wardId, patientId, policy, now, version, state, isStale, deviceAt, drafts, author },
    reads,
  );
  if ('failure' in decided) return failed(await explained(pool, siteId, state.head, decided.failure));
  const { decision } = decided;
  const written = await write(pool, {
    siteId,
    wardId,
    bedsides: [
      {
        patientId,
        seen: version,
        seenFold,
        version: version + decision.entries.length,
        state: decision.state,
        nextChangeAt: decision.nextChangeAt,
      },
    ],
    entries: decision.entries,
    rows: decision.rows,
    replace: decision.replace,
    settings: null,
    releasedBy,
    deliveries: deliveriesOf(siteId, hooks, decision.notices),
  });
  if (written === null) return 'again';
  const receipts: Receipt[] = drafts.map(({ id, happenedAt }) => ({
    id,
    position: written.positionOf.get(id)!,
    receivedAt: written.receivedAt,
    happenedAt,
  }));
  return { ok: true, appended: { receipts, bedside: decision.state, position: written.position } };
}

/** Reads the history at most once, and only when a decision needs it. */
function readsOf(db: Pool, siteId: string, patientId: string): Reads {
  let history: ReturnType<typeof readHistory> | null = null;
  return {
    history: () => {
      history ??= readHistory(db, siteId, patientId);
      return history;
    },
    standing: () => readStandingEntries(db, siteId, patientId),
  };
}

/** The answer for a batch of which something stands in the record; null when nothing does. */
async function answerEarlier(
  pool: Pool,
  policies: Policies,
  batch: Batch,
  hooks: readonly Hook[],
): Promise<AppendResult | null> {
  const earlier = await earlierOf(pool, batch);
  if ('takenId' in earlier) return failed({ code: 'idTaken', entryId: earlier.takenId });
  if (earlier.receipts.length === 0) return null;
  const known = new Map(earlier.receipts.map((receipt) => [receipt.id, receipt]));
  const rest = batch.drafts.filter((draft) => !known.has(draft.id));
  if (rest.length > 0) {
    const result = await append(pool, policies, { ...batch, drafts: rest }, hooks);
    if (!result.ok) return result;
    for (const receipt of result.appended.receipts) known.set(receipt.id, receipt);
    return { ok: true, appended: { ...result.appended, receipts: inOrder(batch, known) } };
  }
  const patientId = batch.drafts[0]?.patientId ?? null;
  const standing = await readStanding(pool, policies, batch.siteId, batch.wardId, patientId);
  if (standing === null) return failed({ code: 'notFound' });
  return {
    ok: true,
    appended: {
      receipts: inOrder(batch, known),
      bedside: patientId === null ? null : standing.state,
      position: standing.position,
    },
  };
}

const inOrder = (batch: Batch, receipts: ReadonlyMap<string, Receipt>) =>
  batch.drafts.map((draft) => receipts.get(draft.id)!);

/** The arrival says where from: that is the ward that the batch leaves, and no other. */
function otherOrigin({ wardId, drafts }: Batch): AppendFailure | null {
  for (const [index, draft] of drafts.entries()) {
    if (draft.kind !== 'transferredIn' || draft.payload.fromWardId === wardId) continue;
    const field = `entries.${index}.payload.fromWardId`;
    const words = 'A transfer names the ward that it leaves.';
    return {
      code: 'refused',
      problems: [problem('from-another-ward', field, draft.payload.fromWardId, wardId, words)],
    };
  }
  return null;
}

/** A patient's entries go into the ward where the patient lies; a transfer takes both wards' entries at once. */
function lyingElsewhere(batch: Batch, standing: Standing): AppendFailure | null {
  const leaves = batch.drafts.some((draft) => draft.kind === 'transferredOut');
  const arrives = batch.drafts.some((draft) => draft.kind === 'transferredIn');
  if (leaves !== arrives) {
    return refusedBatch(
      'half-a-transfer',
      null,
      'leaving and arriving',
      'A transfer is written as one: leaving here, arriving there.',
    );
  }
  if (standing.wardId === null || standing.wardId === batch.wardId) return null;
  // What was written here may be put right here, wherever the patient lies now.
  if (batch.drafts.every((draft) => draft.kind === 'corrected' || draft.kind === 'retracted')) return null;
  return refusedBatch(
    'on-another-ward',
    batch.wardId,
    'the ward of the patient',
    'The patient lies on another ward now.',
  );
}

/**
 * Who lies nowhere belongs to the ward of the last stay: late entries go there, and only an admission goes anywhere.
 */
async function leftElsewhere(pool: Pool, batch: Batch, standing: Standing): Promise<AppendFailure | null> {
  if (standing.wardId !== null || batch.drafts.some((draft) => draft.kind === 'admitted')) return null;
  const { rows } = await pool.query<{ wardId: string }>(
    `SELECT ward_id AS "wardId" FROM stay WHERE site_id = $1 AND patient_id = $2 ORDER BY from_at DESC LIMIT 1`,
    [batch.siteId, batch.drafts[0]?.patientId],
  );
  if (rows[0]?.wardId === batch.wardId) return null;
  return refusedBatch('not-admitted', batch.wardId, 'the ward of the last stay', 'The patient was not admitted here.');
}

/** A device that takes a later time for the ward's would stamp what it calls "now" wrongly. */
function clockAhead({ deviceAt, waited }: Batch, { now, policy }: Standing): AppendFailure | null {
  if (waited) return null;
  const { aheadOfClockMinutes } = policy.settings;
  if (deviceAt <= now + aheadOfClockMinutes * MINUTE_MS) return null;
  const allowed = `at most ${aheadOfClockMinutes} min ahead of the ward's clock`;
  const message = "This device's clock is ahead of the ward's: load the page again, then look at the times.";
  return { code: 'refused', problems: [problem('device-clock-ahead', 'deviceAt', deviceAt, allowed, message)] };
}

const manyPatients = (): AppendFailure =>
  refusedBatch('many-patients', null, 'one patient a batch', 'A batch is about one patient, or about the ward.');

const refusedBatch = (code: string, value: unknown, allowed: string, message: string): AppendFailure => ({
  code: 'refused',
  problems: [problem(code, 'entries', value, allowed, message)],
});
