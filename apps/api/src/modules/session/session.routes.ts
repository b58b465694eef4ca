import {
  firstAdministrator,
  type SignIn,
  session as sessionSchema,
  signInAnswer,
  signIn as signInSchema,
  unlock as unlockSchema,
} from '@slackwater/contract';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { signedInBy } from '../../access/access.plugin.ts';
import { clearCookie, setCookie, setDeviceCookie } from '../../access/cookies.ts';
import { ProblemError } from '../../problems.ts';
import type { Parts } from '../parts.ts';
import type { Router } from '../router.ts';
import { browserOf } from './browser-of.ts';
import { linkUsed } from './session.errors.ts';
import { sessionView, signIn, unlock } from './session.usecases.ts';

/** Sign-in, its lock and its end. */
export function sessionRoutes(app: Router, parts: Parts) {
  const { https } = parts;
  const { sessions, audit, firstAdministrator: first } = parts.access;

  /** The session of this very moment, for the screen. */
  async function viewOf(token: string | null) {
    const by = token === null ? null : await sessions.ask(token);
    if (!by) throw new ProblemError('notSignedIn', 'Your session has ended.');
    return sessionView(parts, by);
  }

  async function signInAndAnswer(request: FastifyRequest, reply: FastifyReply, who: SignIn) {
    const { token, device, deviceKey } = await signIn(parts, who, browserOf(request, https));
    // the browser forgets the session that it had: nobody shall find it alive
    if (request.signedIn) await sessions.end(request.signedIn.accountId, request.signedIn.sessionId);
    const view = await viewOf(token);
    setCookie(reply, https, 'session', token, new Date(view.endsAt));
    setDeviceCookie(reply, https, device, view.serverAt);
    return reply.send({ ...view, deviceKey });
  }

  app.post(
    '/api/sign-in',
    {
      config: { access: 'public' },
      schema: { summary: 'Sign in', tags: ['session'], body: signInSchema, response: { 200: signInAnswer } },
    },
    (request, reply) => signInAndAnswer(request, reply, request.body),
  );

  app.get(
    '/api/session',
    { schema: { summary: 'Who is signed in', tags: ['session'], response: { 200: sessionSchema } } },
    async (request, reply) => {
      return reply.send(await viewOf(request.sessionToken));
    },
  );

  app.post(
    '/api/unlock',
    {
      config: { access: 'whileLocked' },
      schema: { summary: 'Take the lock off', tags: ['session'], body: unlockSchema, response: { 200: sessionSchema } },
    },
    async (request, reply) => {
      await unlock(parts, signedInBy(request), request.body.password, browserOf(request, https));
      return reply.send(await viewOf(request.sessionToken));
    },
  );

  app.post(
    '/api/lock',
    {
      config: { access: 'whileLocked' },
      schema: { summary: 'Lock writing now', tags: ['session'], response: { 200: sessionSchema } },
    },
    async (request, reply) => {
      await sessions.lock(signedInBy(request).sessionId);
      return reply.send(await viewOf(request.sessionToken));
    },
  );

  app.post(
    '/api/sign-out',
    { config: { access: 'whileLocked' }, schema: { summary: 'End this session', tags: ['session'] } },
    async (request, reply) => {
      const { accountId, sessionId } = signedInBy(request);
      await sessions.end(accountId, sessionId);
      await audit.note({ action: 'signedOut', accountId, address: request.ip });
      clearCookie(reply, https, 'session');
      return reply.code(204).send();
    },
  );

  app.post(
    '/api/sign-out-everywhere',
    { config: { access: 'whileLocked' }, schema: { summary: 'End all sessions of this account', tags: ['session'] } },
    async (request, reply) => {
      const { accountId } = signedInBy(request);
      await sessions.end(accountId, null);
      await audit.note({ action: 'signedOutEverywhere', accountId, address: request.ip });
      clearCookie(reply, https, 'session');
      return reply.code(204).send();
    },
  );

  app.post(
    '/api/first-administrator',
    {
      config: { access: 'public' },
      schema: {
        summary: 'Make the first manager, with the one-time link that the server has printed',
        tags: ['session'],
        body: firstAdministrator,
        response: { 200: signInAnswer },
      },
    },
    async (request, reply) => {
      const { token, ...administrator } = request.body;
      const accountId = await first.redeem(token, administrator);
      if (!accountId) throw linkUsed();
      await audit.note({ action: 'madeAccount', accountId, address: request.ip, detail: { made: accountId } });
      return signInAndAnswer(request, reply, administrator);
    },
  );
}
