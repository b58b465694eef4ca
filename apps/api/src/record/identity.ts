import { randomUUID } from 'node:crypto';
import type { Entry } from '@slackwater/domain';
import type { Pool, PoolClient } from 'pg';
import type { Policies } from './policies.ts';
import { readStanding } from './standing.ts';
import { write } from './write.ts';

export type IdentityChange = {
  siteId: string;
  /** The ward on whose board the patient stands. */
  wardId: string;
  patientId: string;
  accountId: string;
  /** Which fields, not what they say: names stand in one place only. */
  fields: readonly string[];
};

/**
 * Changes who a patient is, and says so in the record, in one transaction: a board shows names, so their change takes
 * a position like any other.
 * @param alter changes the row of `patient` on the client it is given
 */
export async function changeIdentity<T>(
  pool: Pool,
  policies: Policies,
  change: IdentityChange,
  alter: (client: PoolClient) => Promise<T>,
): Promise<T> {
  const client = await pool.connect();
  try {
    await client.query('BEGIN');
    // The bedside first, as everywhere; its lock also keeps its version.
    await client.query('SELECT FROM bedside WHERE site_id = $1 AND patient_id = $2 FOR NO KEY UPDATE', [
      change.siteId,
      change.patientId,
    ]);
    const altered = await alter(client);
    await note(client, policies, change);
    await client.query('COMMIT');
    client.release();
    return altered;
  } catch (error) {
    await client.query('ROLLBACK').catch(() => {});
    client.release();
    throw error;
  }
}

async function note(client: PoolClient, policies: Policies, change: IdentityChange): Promise<void> {
  const { siteId, wardId, patientId, accountId, fields } = change;
  const standing = await readStanding(client, policies, siteId, wardId, patientId);
  // Nobody's board shows a patient who lies nowhere.
  if (standing === null || standing.state === null || standing.wardId !== wardId) return;
  const { now, version, nextChangeAt } = standing;
  // Nothing is folded here: what was to be folded anew still is.
  const state = { ...standing.state, foldVersion: standing.foldVersion };
  const entry: Entry<'identityChanged'> = {
    id: randomUUID(),
    kind: 'identityChanged',
    format: 1,
    payload: { fields },
    patientId,
    visitId: null,
    happenedAt: now,
    after: null,
    siteId,
    wardId,
    deviceAt: null,
    receivedAt: now,
    author: accountId,
    position: version + 1,
  };
  const written = await write(client, {
    siteId,
    wardId,
    bedsides: [{ patientId, seen: version, version: version + 1, state, nextChangeAt }],
    entries: [entry],
    rows: {},
    replace: false,
    settings: null,
  });
  if (written === null) throw new Error('A bedside moved on while its row was locked.');
}
