import type { AuditKind } from '@slackwater/contract';
import { may, type Permission } from '@slackwater/domain';
import type { FastifyReply, FastifyRequest } from 'fastify';
import type { SignedIn } from '../../access/sessions.ts';
import { rolesOn, type WardAccess } from '../../access/ward-access.ts';
import type { Projection } from '../../live/projection.ts';
import type { Snapshot } from '../../live/snapshot.ts';
import type { Parts } from '../parts.ts';
import { encodingFor } from './encoding.ts';

/** What it takes to look at each form of the board. */
export const LOOKING = { staff: 'readBoard', wall: 'readWall' } as const satisfies Record<Projection, Permission>;

export const LOOK = { staff: 'readBoard', wall: 'readWall' } as const satisfies Record<Projection, AuditKind>;

export const mayLook = (by: SignedIn, wardId: string, projection: Projection): boolean =>
  rolesOn(by, wardId).some((role) => may(role, LOOKING[projection]));

/** Kept by the browser, shown only after asking: the answer is mostly "not modified". */
const CACHED = 'private, no-cache';
export const JSON_TYPE = 'application/json; charset=utf-8';

/** Notes that somebody looked at the ward. */
export async function noteLook({ access }: Parts, request: FastifyRequest, ward: WardAccess, projection: Projection) {
  const { sessionId, accountId } = ward.by;
  await access.audit.noteRead(sessionId, {
    action: LOOK[projection],
    accountId,
    address: request.ip,
    wardId: ward.wardId,
  });
}

/** Answers the whole board, as the bytes that were made once for its position, or that nothing changed. */
export async function sendSnapshot(
  { live }: Parts,
  { wardId }: WardAccess,
  projection: Projection,
  request: FastifyRequest,
  reply: FastifyReply,
) {
  const snapshot = await live.snapshot(wardId, projection);
  reply.headers(headOf(snapshot));
  if (isKnown(request.headers['if-none-match'], snapshot.etag)) return reply.code(304).send();
  const encoding = encodingFor(request.headers['accept-encoding']);
  if (encoding !== 'identity') reply.header('content-encoding', encoding);
  return reply.type(JSON_TYPE).send(await snapshot.body(encoding));
}

/** What every answer of a snapshot says of it, also that it is known. */
export const headOf = ({ etag }: Snapshot) => ({ etag, 'cache-control': CACHED, vary: 'accept-encoding' });

/** Whether a browser, or a proxy that weakened or gathered tags, holds this very board (RFC 9110, section 13.1.2). */
export const isKnown = (ifNoneMatch: string | undefined, etag: string): boolean =>
  ifNoneMatch === etag || (ifNoneMatch ?? '').split(',').some((tag) => bare(tag) === bare(etag));

const bare = (tag: string) => tag.trim().replace(/^W\//, '');

/** Answers what changed after a position. */
export async function sendDelta(
  { live }: Parts,
  { wardId }: WardAccess,
  projection: Projection,
  since: number,
  reply: FastifyReply,
) {
  return reply.type(JSON_TYPE).send(await live.since(wardId, projection, since));
}
