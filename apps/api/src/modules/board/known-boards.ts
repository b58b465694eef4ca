import type { IncomingMessage, ServerResponse } from 'node:http';
import type { FastifyInstance } from 'fastify';
import type { BrowserRules } from '../../access/browser-rules.ts';
import { cookieOf } from '../../access/cookies.ts';
import type { Projection } from '../../live/projection.ts';
import type { Snapshot } from '../../live/snapshot.ts';
import type { Parts } from '../parts.ts';
import { headOf, isKnown, JSON_TYPE, LOOK, mayLook } from './board.usecases.ts';
import { encodingFor } from './encoding.ts';

const ADDRESS = /^\/api\/wards\/([\w-]+)\/(board|wall)$/;

type Answer = (request: IncomingMessage, response: ServerResponse) => void;

/**
 * A short way past the framework for the answer that is given most: a board to somebody who was answered a moment ago.
 * Who asks is remembered, the look is noted, the bytes are made; the framework's way to the same bytes costs twice as
 * much as sending them. Whatever else a request may be, or want to be told, goes the long way.
 */
export function answerKnownBoards(app: FastifyInstance, parts: Parts, rules: BrowserRules) {
  const { server } = app;
  const [longWay] = server.listeners('request') as Answer[];
  const shortWay = shortWayOf(app, parts, rules);
  let isClosing = false;
  // the framework says so to every connection that is still open
  app.addHook('preClose', async () => {
    isClosing = true;
  });
  server.removeAllListeners('request');
  server.on('request', (request: IncomingMessage, response: ServerResponse) => {
    if (isClosing || !shortWay(request, response)) longWay!.call(server, request, response);
  });
}

/** @returns whether it has answered */
function shortWayOf({ parseCookie }: FastifyInstance, parts: Parts, rules: BrowserRules) {
  const heads = new WeakMap<Snapshot, Readonly<Record<string, string>>>();
  const headFor = (snapshot: Snapshot) => {
    const known = heads.get(snapshot);
    if (known) return known;
    const head = { ...rules, ...headOf(snapshot) };
    heads.set(snapshot, head);
    return head;
  };

  return ({ method, url, headers }: IncomingMessage, response: ServerResponse): boolean => {
    const [, wardId, page] = (method === 'GET' && ADDRESS.exec(url!)) || [];
    if (wardId === undefined || headers.cookie === undefined) return false;
    const token = cookieOf(parseCookie(headers.cookie), parts.https, 'session');
    const snapshot = token && snapshotFor(parts, token, wardId, page === 'wall' ? 'wall' : 'staff');
    if (!snapshot) return false;
    if (isKnown(headers['if-none-match'], snapshot.etag)) {
      response.writeHead(304, headFor(snapshot)).end();
      return true;
    }
    const encoding = encodingFor(headers['accept-encoding'] as string | undefined);
    const body = snapshot.madeBody(encoding);
    if (body === null) return false;
    response
      .writeHead(200, {
        ...headFor(snapshot),
        ...(encoding !== 'identity' && { 'content-encoding': encoding }),
        'content-type': JSON_TYPE,
        'content-length': body.length,
      })
      .end(body);
    return true;
  };
}

/** What somebody may be shown of a ward without anybody else being asked. */
function snapshotFor({ access, live }: Parts, token: string, wardId: string, projection: Projection): Snapshot | null {
  const by = access.sessions.recalled(token);
  if (by === null || !mayLook(by, wardId, projection)) return null;
  return access.audit.isReadNoted(by.sessionId, { action: LOOK[projection], wardId })
    ? live.knownSnapshot(wardId, projection)
    : null;
}
