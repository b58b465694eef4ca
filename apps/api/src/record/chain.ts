import { createHash } from 'node:crypto';
import type { EpochMs } from '@slackwater/domain';

/** What the chain covers of an entry beside its payload, its position and the instant of its arrival. */
export type Header = {
  siteId: string;
  wardId: string;
  id: string;
  patientId: string | null;
  sequence: number | null;
  visitId: string | null;
  kind: string;
  format: number;
  happenedAt: EpochMs;
  deviceAt: EpochMs | null;
  author: string | null;
  after: string | null;
  target: string | null;
  /** Who let it in for its author; null nearly always. */
  releasedBy: string | null;
};

const sha256 = (...parts: readonly Uint8Array[]): Buffer => {
  const hash = createHash('sha256');
  for (const part of parts) hash.update(part);
  return hash.digest();
};

/** The digest a ward's chain begins with. */
export const CHAIN_START: Buffer = Buffer.alloc(32);

/** sha256(salt ‖ stored bytes): stays in the entry when its payload is erased, and cannot be guessed back from it. */
export const contentDigest = (salt: Uint8Array, bytes: Uint8Array): Buffer => sha256(salt, bytes);

/**
 * What the chain takes in for one entry: its header, in this order of fields, and its content's digest. A change of the
 * order or of the form would break every chain ever written.
 */
export function linkOf(header: Header, content: Uint8Array): Buffer {
  const fields = [
    header.siteId,
    header.wardId,
    header.id,
    header.patientId,
    header.sequence,
    header.visitId,
    header.kind,
    header.format,
    header.happenedAt,
    header.deviceAt,
    header.author,
    header.after,
    header.target,
    // Came later: what nobody released has the link that it always had.
    ...(header.releasedBy === null ? [] : [header.releasedBy]),
  ];
  return sha256(Buffer.from(JSON.stringify(fields), 'utf8'), content);
}

/** The digest of an entry: covers the one before it. The same is `chain_digests` in the database, which writes it. */
export function nextDigest(before: Uint8Array, link: Uint8Array, position: number, receivedAt: EpochMs): Buffer {
  const numbers = Buffer.alloc(16);
  numbers.writeBigInt64BE(BigInt(position), 0);
  numbers.writeBigInt64BE(BigInt(receivedAt), 8);
  return sha256(before, link, numbers);
}
