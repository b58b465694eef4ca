import { once } from 'node:events';
import type { ServerResponse } from 'node:http';
import type { Writable } from 'node:stream';
import type { FastifyReply, FastifyRequest } from 'fastify';
import type { Access } from '../../access/access.ts';
import type { WardAccess } from '../../access/ward-access.ts';
import type { Projection } from '../../live/projection.ts';
import type { Sink } from '../../live/streams.ts';
import type { Parts } from '../parts.ts';
import { mayLook } from './board.usecases.ts';

/** Opens a ward's stream of events on this answer, which from here on belongs to `live`. */
export async function openStream(
  { live, access }: Parts,
  ward: WardAccess,
  projection: Projection,
  request: FastifyRequest,
  reply: FastifyReply,
) {
  reply.hijack();
  const response: Response = reply.raw;
  const carrier = await carrierOf(response);
  // gone while its look was noted: its end was told before anybody heard
  if (carrier.destroyed) return;
  // It ends with its connection; in chunks, each event would be written to each board in four pieces instead of one.
  response.useChunkedEncodingByDefault = false;
  response.writeHead(200, {
    ...plainHeaders(reply),
    'content-type': 'text/event-stream; charset=utf-8',
    'cache-control': 'no-store',
    // a proxy that gathers events before it sends them makes them late
    'x-accel-buffering': 'no',
  });
  response.flushHeaders();
  let leave: (() => void) | null = null;
  let isClosed = false;
  response.once('close', () => {
    isClosed = true;
    leave?.();
  });
  const { wardId } = ward;
  try {
    leave = await live.join({
      wardId,
      projection,
      sink: sinkOf(response, carrier),
      accountId: ward.by.accountId,
      mayStill: stillMay(access, wardId, projection, request.sessionToken),
      lastPosition: lastPositionOf(request),
    });
    if (isClosed) leave();
  } catch (error) {
    request.log.warn({ err: error }, 'a stream could not be opened');
    response.end();
  }
}

/** What was set for every answer: the rules for browsers. */
const plainHeaders = (reply: FastifyReply) =>
  Object.fromEntries(Object.entries(reply.getHeaders()).filter(([, value]) => value !== undefined));

type Response = ServerResponse & { stream?: Writable };

/**
 * What carries the body: over HTTP/2 the stream beneath the answer, else the connection. An answer has none while those
 * to earlier requests of the same connection are not through, and never gets one if the connection ends before.
 */
async function carrierOf(response: Response): Promise<Writable> {
  if (response.stream) return response.stream;
  if (response.socket === null) await once(response, 'socket');
  return response.socket!;
}

/**
 * Events go straight to the carrier, since they go without chunks and length: the answer itself would put each aside
 * until its next turn.
 */
const sinkOf = (response: Response, carrier: Writable): Sink => ({
  write: (bytes) => carrier.write(bytes),
  end: () => response.end(),
  destroy: () => response.destroy(),
  get writableLength() {
    return carrier.writableLength;
  },
});

/** Where the stream broke off, as `EventSource` says it when it comes again by itself. */
function lastPositionOf(request: FastifyRequest): number | null {
  const last = request.headers['last-event-id'];
  return typeof last === 'string' && /^\d{1,10}$/.test(last) ? Number(last) : null;
}

/** Asked at each beat: whether the session lives, and still may look at the ward. */
const stillMay =
  ({ sessions }: Access, wardId: string, projection: Projection, token: string | null) =>
  async () => {
    const by = token === null ? null : await sessions.recall(token);
    if (by === null || !mayLook(by, wardId, projection)) return false;
    // Nobody presses anything on a wall: that it still looks is all there is to be seen of it.
    if (projection === 'wall') await sessions.touch(by);
    return true;
  };
