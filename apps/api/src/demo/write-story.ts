import { randomUUIDv7 } from 'node:crypto';
import {
  type Draft,
  type Entry,
  type EpochMs,
  FOLD_VERSION,
  fold,
  MINUTE_MS,
  nextChangeAt,
  settle,
  type WardPolicy,
} from '@slackwater/domain';
import type { PoolClient } from 'pg';
import { allRows } from '../record/rows/folded-rows.ts';
import { MAKE_BEDSIDE } from '../record/statements.sql.ts';
import { write } from '../record/write.ts';
import type { Written } from './diary.ts';

export type Inserted = {
  siteId: string;
  wardId: string;
  patientId: string;
  policy: WardPolicy;
  /** By login. */
  accounts: ReadonlyMap<string, { id: string; name: string }>;
  now: EpochMs;
};

/** Minutes for which a nurse of the story has taken an alert. */
const TAKEN_FOR_MINUTES = 22;
/** When somebody first had it; it was taken on since. */
const FIRST_TAKEN_AFTER_MINUTES = 4;
/** What is older than this has been seen by somebody. */
const SEEN_AFTER_MINUTES = 10;

/** Writes one patient's story through the record's own statement, with the alerts that stand at its end. */
export async function writeStory(client: PoolClient, told: Inserted, story: readonly Written[]): Promise<void> {
  const { siteId, wardId, patientId, policy, now } = told;
  const entries = story
    .filter(({ draft }) => draft.happenedAt <= now)
    .sort((a, b) => a.draft.happenedAt - b.draft.happenedAt)
    .map(({ draft, author }, index) => entryOf(told, draft, author, index + 1));
  raiseAlerts(told, entries);
  const { state, dwells } = fold(patientId, entries, policy);
  await client.query({ ...MAKE_BEDSIDE, values: [siteId, patientId, FOLD_VERSION] });
  const written = await write(client, {
    siteId,
    wardId,
    bedsides: [{ patientId, seen: 0, version: entries.length, state, nextChangeAt: nextChangeAt(state, now, policy) }],
    entries,
    rows: allRows({ siteId, patientId, policy }, entries, dwells),
    replace: false,
    settings: null,
  });
  if (written === null) throw new Error(`The story of patient ${patientId} met another writer.`);
}

function entryOf(told: Inserted, draft: Draft, login: string | null, position: number): Entry {
  const { siteId, wardId, accounts, now } = told;
  const author = login === null ? null : idOf(accounts, login);
  const payload = draft.kind === 'assigned' ? assignedTo(told, draft.payload) : draft.payload;
  return {
    ...draft,
    payload,
    siteId,
    wardId,
    author,
    deviceAt: author && draft.happenedAt,
    receivedAt: now,
    position,
  } as Entry;
}

function idOf(accounts: Inserted['accounts'], login: string): string {
  const account = accounts.get(login);
  if (!account) throw new Error(`The scenario names ${login}, who is not on its staff.`);
  return account.id;
}

/** The story knows logins; the record knows accounts. */
function assignedTo({ accounts }: Inserted, payload: Extract<Draft, { kind: 'assigned' }>['payload']) {
  const account = payload.accountId === null ? undefined : accounts.get(payload.accountId);
  return { ...payload, accountId: account?.id ?? null, name: account?.name ?? null };
}

/** Raises what the rules say at the end of the story; what has stood for a while is in somebody's hands. */
function raiseAlerts(told: Inserted, entries: Entry[]): void {
  const { patientId, policy, now } = told;
  const { state } = fold(patientId, entries, policy);
  const nurse = state.assignment?.accountId ?? null;
  for (const { kind, payload } of settle(state, now, policy)) {
    const since = kind === 'alertRaised' ? payload.condition.since : now;
    const raised = toolEntry(
      told,
      { kind, payload } as Pick<Draft, 'kind' | 'payload'>,
      Math.min(since, now),
      entries.length + 1,
    );
    entries.push(raised);
    if (kind === 'alertRaised' && nurse && isSeen(payload.condition.kind, since, now)) {
      for (const [at, until] of [
        [since + FIRST_TAKEN_AFTER_MINUTES * MINUTE_MS, now],
        [now - 3 * MINUTE_MS, now + TAKEN_FOR_MINUTES * MINUTE_MS],
      ] as const) {
        const by = { kind: 'alertAcknowledged' as const, payload: { alertId: raised.id, until } };
        entries.push({ ...toolEntry(told, by, at, entries.length + 1), author: nurse, deviceAt: now });
      }
    }
  }
}

/** An overdue drain is what nobody has come to yet. */
const isSeen = (kind: string, since: EpochMs, now: EpochMs): boolean =>
  kind !== 'drainOverdue' && since < now - SEEN_AFTER_MINUTES * MINUTE_MS;

function toolEntry(
  told: Inserted,
  what: Pick<Draft, 'kind' | 'payload'>,
  happenedAt: EpochMs,
  position: number,
): Entry {
  const { siteId, wardId, patientId, now } = told;
  return {
    id: randomUUIDv7(),
    format: 1,
    ...what,
    siteId,
    wardId,
    patientId,
    visitId: null,
    happenedAt,
    after: null,
    deviceAt: null,
    receivedAt: now,
    author: null,
    position,
  } as Entry;
}
