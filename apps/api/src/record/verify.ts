import type { EpochMs } from '@slackwater/domain';
import type { Pool, PoolClient } from 'pg';
import { CHAIN_START, contentDigest, linkOf, nextDigest } from './chain.ts';
import { epochMs } from './instants.ts';

/** A head that was written down elsewhere (log, handover print): shows a tail that was cut off. */
export type Anchor = { wardId: string; position: number; digest: string };

export type ChainFault = { wardId: string; position: number; what: string };

export type VerifiedWard = { wardId: string; position: number; digest: string; erased: number };

export type Verification = { wards: readonly VerifiedWard[]; faults: readonly ChainFault[] };

type Row = {
  siteId: string;
  wardId: string;
  position: number;
  id: string;
  patientId: string | null;
  sequence: number | null;
  visitId: string | null;
  kind: string;
  format: number;
  happenedAt: EpochMs;
  deviceAt: EpochMs | null;
  receivedAt: EpochMs;
  author: string | null;
  after: string | null;
  target: string | null;
  releasedBy: string | null;
  contentDigest: Buffer;
  digest: Buffer;
  salt: Buffer | null;
  bytes: Buffer | null;
  isErased: boolean;
};

const PAGE = 5_000;

/** $1 site, $2 ward, $3 position before, $4 how many */
const READ_CHAIN = `
SELECT entry.site_id AS "siteId", entry.ward_id AS "wardId", entry.position, entry.id,
  entry.patient_id AS "patientId", entry.sequence, entry.visit_id AS "visitId", entry.kind, entry.format,
  ${epochMs('entry.happened_at')} AS "happenedAt", ${epochMs('entry.device_at')} AS "deviceAt",
  ${epochMs('entry.received_at')} AS "receivedAt", entry.author_id AS author, entry.after, entry.target,
  entry.released_by AS "releasedBy",
  entry.content_digest AS "contentDigest", entry.digest, payload.salt, payload.bytes,
  patient.erased_at IS NOT NULL AS "isErased"
FROM entry
LEFT JOIN entry_payload AS payload ON payload.site_id = entry.site_id AND payload.entry_id = entry.id
LEFT JOIN patient ON patient.site_id = entry.site_id AND patient.id = entry.patient_id
WHERE entry.site_id = $1 AND entry.ward_id = $2 AND entry.position > $3
ORDER BY entry.position LIMIT $4`;

const READ_COUNTERS = `
SELECT ward_id AS "wardId", position, digest FROM ward_counter WHERE site_id = $1 ORDER BY ward_id`;

/**
 * Recomputes every ward's chain from the stored bytes, in one snapshot of the database, while the ward works.
 * @param anchors heads that were written down before; one that is not found again is a fault
 * @returns the heads, and every fault: a gap, a changed entry, a missing payload, a cut tail
 */
export async function verify(pool: Pool, siteId: string, anchors: readonly Anchor[] = []): Promise<Verification> {
  const client = await pool.connect();
  try {
    await client.query('BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY');
    const { rows } = await client.query<{ wardId: string; position: number; digest: Buffer }>(READ_COUNTERS, [siteId]);
    const wards: VerifiedWard[] = [];
    const faults: ChainFault[] = [];
    for (const counter of rows) {
      const mine = anchors.filter((anchor) => anchor.wardId === counter.wardId);
      const verified = await verifyWard(client, siteId, counter.wardId, mine, faults);
      wards.push(verified);
      if (verified.position !== counter.position || verified.digest !== counter.digest.toString('hex')) {
        faults.push({
          ...at(counter),
          what: 'The counter of the ward does not stand at the last entry: a tail is missing.',
        });
      }
    }
    for (const anchor of anchors.filter(({ wardId }) => !rows.some((row) => row.wardId === wardId))) {
      faults.push({ ...at(anchor), what: 'There is no such ward.' });
    }
    await client.query('COMMIT');
    client.release();
    return { wards, faults };
  } catch (error) {
    client.release(error as Error);
    throw error;
  }
}

const at = ({ wardId, position }: { wardId: string; position: number }) => ({ wardId, position });

async function verifyWard(
  client: PoolClient,
  siteId: string,
  wardId: string,
  anchors: readonly Anchor[],
  faults: ChainFault[],
): Promise<VerifiedWard> {
  let position = 0;
  let digest: Buffer = CHAIN_START;
  let erased = 0;
  const found = new Set<Anchor>();
  for (;;) {
    const { rows } = await client.query<Row>(READ_CHAIN, [siteId, wardId, position, PAGE]);
    for (const row of rows) {
      for (const what of faultsOf(row, position, digest)) faults.push({ wardId, position: row.position, what });
      if (row.bytes === null) erased += 1;
      // From what is stored, so that one fault is told once and not for every entry after it.
      ({ position, digest } = row);
      for (const anchor of anchors) {
        if (anchor.position === position && anchor.digest === digest.toString('hex')) found.add(anchor);
      }
    }
    if (rows.length < PAGE) break;
  }
  for (const anchor of anchors.filter((one) => !found.has(one))) {
    faults.push({ ...at(anchor), what: 'The head that was written down is not in the chain.' });
  }
  return { wardId, position, digest: digest.toString('hex'), erased };
}

function faultsOf(row: Row, positionBefore: number, digestBefore: Buffer): string[] {
  const faults: string[] = [];
  if (row.position !== positionBefore + 1)
    faults.push(`Entries ${positionBefore + 1} to ${row.position - 1} are missing.`);
  if (row.bytes === null || row.salt === null) {
    if (!row.isErased) faults.push('The payload is missing, and nobody was erased by law.');
  } else if (!contentDigest(row.salt, row.bytes).equals(row.contentDigest)) {
    faults.push('The payload is not the one that was recorded.');
  }
  const expected = nextDigest(digestBefore, linkOf(row, row.contentDigest), row.position, row.receivedAt);
  if (!expected.equals(row.digest))
    faults.push('The entry, or its place in the chain, is not the one that was recorded.');
  return faults;
}
