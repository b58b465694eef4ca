import type { FastifyInstance, FastifyRequest } from 'fastify';
import { isApi } from '../api-route.ts';
import { ProblemError } from '../problems.ts';
import type { Access } from './access.ts';
import { readCookie } from './cookies.ts';
import { refuseForeignOrigin } from './origin.ts';
import type { SignedIn } from './sessions.ts';

declare module 'fastify' {
  interface FastifyContextConfig {
    /** `public`: for everybody. `whileLocked`: a change that a locked session may make. Else: signed in, unlocked. */
    access?: 'public' | 'whileLocked';
  }
  interface FastifyRequest {
    /** What the session's cookie says. */
    sessionToken: string | null;
    signedIn: SignedIn | null;
  }
}

const isChange = (request: FastifyRequest) => !['GET', 'HEAD', 'OPTIONS'].includes(request.method);

/**
 * Who is asking. On a route that is not public it is known, since the hook below has let nobody else through.
 * @throws ProblemError `notSignedIn`
 */
export function signedInBy(request: FastifyRequest): SignedIn {
  if (request.signedIn) return request.signedIn;
  throw new ProblemError('notSignedIn', 'You are not signed in, or your session has ended.');
}

/**
 * Asks every request under `/api/` who it comes from, before its body is read.
 * @param https how browsers reach this server, whatever a proxy in front of it speaks
 */
export function guardRequests(app: FastifyInstance, { sessions }: Access, https: boolean) {
  app.decorateRequest('sessionToken', null);
  app.decorateRequest('signedIn', null);

  app.addHook('onRequest', async (request) => {
    if (!isApi(request)) return;
    if (isChange(request)) refuseForeignOrigin(request, https);
    const token = readCookie(request, https, 'session');
    request.sessionToken = token;
    // a public read may say more to the signed in
    if (token) request.signedIn = isChange(request) ? await sessions.ask(token) : await sessions.recall(token);

    const rule = request.routeOptions.config.access;
    if (rule === 'public' || request.is404) return;
    const by = signedInBy(request);
    if (!isChange(request) || rule === 'whileLocked') return;
    if (by.lockedAt !== null) throw new ProblemError('locked', 'Writing was locked after a time without a change.');
    await sessions.touch(by);
  });
}
