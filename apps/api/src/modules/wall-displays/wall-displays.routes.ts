import {
  madeWallDisplay,
  newWallDisplay,
  openWallDisplay,
  session,
  uuid,
  wallDisplaysView,
  wardId,
} from '@slackwater/contract';
import { z } from 'zod';
import { signedInBy } from '../../access/access.plugin.ts';
import { setCookie, setDeviceCookie } from '../../access/cookies.ts';
import type { Parts } from '../parts.ts';
import { wardParams } from '../patients/patients.params.ts';
import type { Router } from '../router.ts';
import { browserOf } from '../session/browser-of.ts';
import { sessionView } from '../session/session.usecases.ts';
import { codeUsed } from './wall-displays.errors.ts';
import { displaysOf } from './wall-displays.repository.ts';
import { makeDisplay, openDisplay, renewDisplay, revokeDisplay } from './wall-displays.usecases.ts';

const displayParams = z.strictObject({ ward: wardId, display: uuid });

/** The devices that show a ward on its walls: made by who runs the ward, opened on the device by a code. */
export function wallDisplayRoutes(app: Router, parts: Parts) {
  const { access, pool, https } = parts;

  app.get(
    '/api/wards/:ward/wall-displays',
    {
      schema: {
        summary: 'The ward’s wall displays and when each was last seen',
        tags: ['wall displays'],
        params: wardParams,
        response: { 200: wallDisplaysView },
      },
    },
    async (request) => {
      const ward = access.openWard(signedInBy(request), request.params.ward, 'keepWalls');
      return { displays: await displaysOf(pool, ward) };
    },
  );

  app.post(
    '/api/wards/:ward/wall-displays',
    {
      schema: {
        summary: 'Make a wall display; its code is in this answer and nowhere else',
        tags: ['wall displays'],
        params: wardParams,
        body: newWallDisplay,
        response: { 201: madeWallDisplay },
      },
    },
    async (request, reply) => {
      const ward = access.openWard(signedInBy(request), request.params.ward, 'keepWalls');
      return reply.code(201).send(await makeDisplay(parts, ward, request.body, request.ip));
    },
  );

  app.post(
    '/api/wards/:ward/wall-displays/:display/renew',
    {
      schema: {
        summary: 'Give a wall display a new code for 90 days more; it goes on showing until that is used',
        tags: ['wall displays'],
        params: displayParams,
        response: { 200: madeWallDisplay },
      },
    },
    async (request) => {
      const ward = access.openWard(signedInBy(request), request.params.ward, 'keepWalls');
      return renewDisplay(parts, ward, request.params.display, request.ip);
    },
  );

  app.post(
    '/api/wards/:ward/wall-displays/:display/revoke',
    {
      schema: {
        summary: 'End a wall display at once and for good',
        tags: ['wall displays'],
        params: displayParams,
      },
    },
    async (request, reply) => {
      const ward = access.openWard(signedInBy(request), request.params.ward, 'keepWalls');
      await revokeDisplay(parts, ward, request.params.display, request.ip);
      return reply.code(204).send();
    },
  );

  app.post(
    '/api/wall-displays/open',
    {
      config: { access: 'public' },
      schema: {
        summary: 'Open a wall display on this device, with the code that was shown once',
        tags: ['wall displays'],
        body: openWallDisplay,
        response: { 200: session },
      },
    },
    async (request, reply) => {
      const { token, device } = await openDisplay(parts, request.body, request.signedIn, browserOf(request, https));
      // the browser forgets the session that it had: nobody shall find it alive
      if (request.signedIn) await access.sessions.end(request.signedIn.accountId, request.signedIn.sessionId);
      const by = await access.sessions.ask(token);
      // revoked between the two
      if (by === null) throw codeUsed();
      setCookie(reply, https, 'session', token, new Date(by.endsAt));
      setDeviceCookie(reply, https, device, by.readAt);
      return reply.send(await sessionView(parts, by));
    },
  );
}
