import {
  type EntriesAnswer,
  entriesAnswer,
  type KeptView,
  keptAnswer,
  keptDiscard,
  keptSend,
  type OutboxAnswer,
  outboxAnswer,
  outboxBatch,
  wardId,
} from '@slackwater/contract';
import { z } from 'zod';
import { signedInBy } from '../../access/access.plugin.ts';
import { readCookie } from '../../access/cookies.ts';
import { hashToken } from '../../access/tokens.ts';
import type { Parts } from '../parts.ts';
import type { Router } from '../router.ts';
import { discardKept, keptView, sendKept } from './kept.usecases.ts';
import { takeFromOutbox } from './outbox.usecases.ts';

/** What waited on devices while there was no network, and what the record refused of it. */
export function outboxRoutes(app: Router, parts: Parts) {
  app.post(
    '/api/outbox',
    {
      schema: {
        summary:
          'Take entries that waited on a device: into the record, or kept for their author where it refuses them',
        description: 'Sent twice, they are written or kept once. 425 and 503 mean: send the same again later.',
        tags: ['outbox'],
        body: outboxBatch,
        response: { 200: outboxAnswer },
      },
    },
    (request): Promise<OutboxAnswer> => {
      const device = readCookie(request, parts.https, 'device');
      return takeFromOutbox(parts, signedInBy(request), device === null ? null : hashToken(device), request.body);
    },
  );

  app.get(
    '/api/kept',
    {
      schema: {
        summary: 'What was refused of one’s own and is kept until one decides',
        tags: ['outbox'],
        response: { 200: keptAnswer },
      },
    },
    (request): Promise<KeptView> => {
      const by = signedInBy(request);
      return keptView(parts, by, { authorId: by.accountId });
    },
  );

  app.get(
    '/api/wards/:ward/kept',
    {
      schema: {
        summary: 'What was refused of anybody on a ward, for who may release it',
        tags: ['outbox'],
        params: z.strictObject({ ward: wardId }),
        response: { 200: keptAnswer },
      },
    },
    async (request): Promise<KeptView> => {
      const by = signedInBy(request);
      const ward = parts.access.openWard(by, request.params.ward, 'releaseOutbox');
      const read = { action: 'readKept' as const, accountId: by.accountId, address: request.ip, wardId: ward.wardId };
      await parts.access.audit.noteRead(by.sessionId, read);
      return keptView(parts, by, { wardId: ward.wardId });
    },
  );

  app.post(
    '/api/kept/send',
    {
      schema: {
        summary: 'Send kept entries into the record, as they are or amended; under both names where another does',
        tags: ['outbox'],
        body: keptSend,
        response: { 200: entriesAnswer },
      },
    },
    (request): Promise<EntriesAnswer> => sendKept(parts, signedInBy(request), request.body, request.ip),
  );

  app.post(
    '/api/kept/discard',
    {
      schema: {
        summary: 'Decide with a reason that kept entries are never recorded',
        tags: ['outbox'],
        body: keptDiscard,
      },
    },
    async (request, reply) => {
      await discardKept(parts, signedInBy(request), request.body, request.ip);
      return reply.code(204).send();
    },
  );
}
