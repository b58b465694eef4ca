import type { Permission } from '@slackwater/domain';
import type { FastifyReply, FastifyRequest } from 'fastify';
import type { WardAccess } from '../../access/ward-access.ts';
import type { Projection } from '../../live/projection.ts';
import type { Parts } from '../parts.ts';
import { encodingFor } from './encoding.ts';

/** What it takes to look at each form of the board. */
export const LOOKING = { staff: 'readBoard', wall: 'readWall' } as const satisfies Record<Projection, Permission>;

/** Kept by the browser, shown only after asking: the answer is mostly "not modified". */
const CACHED = 'private, no-cache';

/** Notes that somebody looked at the ward. */
export async function noteLook({ access }: Parts, request: FastifyRequest, ward: WardAccess, projection: Projection) {
  const action = projection === 'wall' ? 'readWall' : 'readBoard';
  const { sessionId, accountId } = ward.by;
  await access.audit.noteRead(sessionId, { action, accountId, address: request.ip, wardId: ward.wardId });
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
  reply.header('etag', snapshot.etag).header('cache-control', CACHED).header('vary', 'accept-encoding');
  if (isKnown(request.headers['if-none-match'], snapshot.etag)) return reply.code(304).send();
  const encoding = encodingFor(request.headers['accept-encoding']);
  if (encoding !== 'identity') reply.header('content-encoding', encoding);
  return reply.type('application/json; charset=utf-8').send(await snapshot.body(encoding));
}

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
  return reply.type('application/json; charset=utf-8').send(await live.since(wardId, projection, since));
}
