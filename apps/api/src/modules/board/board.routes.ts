import { boardAnswer, wallAnswer } from '@slackwater/contract';
import type { FastifyRequest } from 'fastify';
import { z } from 'zod';
import { signedInBy } from '../../access/access.plugin.ts';
import type { Projection } from '../../live/projection.ts';
import type { Parts } from '../parts.ts';
import { wardParams } from '../patients/patients.params.ts';
import type { Router } from '../router.ts';
import { openStream } from './board.stream.ts';
import { LOOKING, noteLook, sendDelta, sendSnapshot } from './board.usecases.ts';

const position = z.coerce.number().int().min(0).max(2_147_483_647);
const since = z.strictObject({ since: position.optional() });

/** The unit board: whole, what changed, and as it changes. */
export function boardRoutes(app: Router, parts: Parts) {
  const open = (request: FastifyRequest, wardId: string, projection: Projection) =>
    parts.access.openWard(signedInBy(request), wardId, LOOKING[projection]);

  const addresses = [
    {
      url: '/api/wards/:ward/board',
      projection: 'staff',
      answer: boardAnswer,
      summary: 'The unit board, whole or what changed since a position',
    },
    {
      url: '/api/wards/:ward/wall',
      projection: 'wall',
      answer: wallAnswer,
      summary: 'The same for a wall display: initials, no names',
    },
  ] as const;
  for (const { url, projection, answer, summary } of addresses) {
    app.get(
      url,
      { schema: { summary, tags: ['board'], params: wardParams, querystring: since, response: { 200: answer } } },
      async (request, reply) => {
        const ward = open(request, request.params.ward, projection);
        await noteLook(parts, request, ward, projection);
        const { since: from } = request.query;
        return from === undefined
          ? sendSnapshot(parts, ward, projection, request, reply)
          : sendDelta(parts, ward, projection, from, reply);
      },
    );
  }

  app.get(
    '/api/wards/:ward/stream',
    {
      // a HEAD has no body that could go on
      exposeHeadRoute: false,
      schema: {
        summary: 'The board as it changes: server-sent events `rows` and, every 15 s, `beat`',
        description: 'Rows are those of the board for staff, those of the wall for a wall display.',
        tags: ['board'],
        params: wardParams,
      },
    },
    async (request, reply) => {
      const ward = open(request, request.params.ward, 'wall');
      const projection = ward.may(LOOKING.staff) ? 'staff' : 'wall';
      await noteLook(parts, request, ward, projection);
      await openStream(parts, ward, projection, request, reply);
    },
  );
}
