import { AUDIT_KINDS, type AuditPage, auditPage, instant, paging, uuid, wardId } from '@slackwater/contract';
import { z } from 'zod';
import { signedInBy } from '../../access/access.plugin.ts';
import { invalid } from '../../problems.handler.ts';
import { fieldProblem } from '../../problems.ts';
import { readCursor, writeCursor } from '../cursor.ts';
import type { Parts } from '../parts.ts';
import type { Router } from '../router.ts';
import { eventsBefore, patientOfNumber } from './audit.repository.ts';

const asked = z.coerce.number().pipe(instant);
const place = z.strictObject({ at: instant, id: uuid });
const query = paging.extend({
  accountId: uuid.optional(),
  patientId: uuid.optional(),
  hospitalNumber: z.string().trim().min(1, 'a hospital number').max(40).optional(),
  wardId: wardId.optional(),
  kind: z.enum(AUDIT_KINDS).optional(),
  from: asked.optional(),
  to: asked.optional(),
});

/** Who read whom, who signed in, who went on against a stop, who changed what: for managers. */
export function auditRoutes(app: Router, { access, pool }: Parts) {
  app.get(
    '/api/audit',
    {
      schema: {
        summary: 'Reads, sign-ins, overrides and changes, newest first',
        description: '`from` is in it, `to` is not; both in epoch milliseconds. Filters hold together.',
        tags: ['audit'],
        querystring: query,
        response: { 200: auditPage },
      },
    },
    async (request): Promise<AuditPage> => {
      const by = signedInBy(request);
      const site = access.openSite(by, 'readAudit');
      const { cursor, limit, hospitalNumber, ...filter } = request.query;
      const before = readCursor(cursor, place);
      if (hospitalNumber !== undefined) {
        const patientId = await patientOfNumber(pool, site, hospitalNumber);
        if (patientId === null || (filter.patientId !== undefined && filter.patientId !== patientId)) {
          const allowed = 'the number of a patient whom the hospital knows';
          throw invalid([fieldProblem('patient-unknown', 'hospitalNumber', hospitalNumber, allowed)]);
        }
        filter.patientId = patientId;
      }
      const events = await eventsBefore(pool, site, filter, { before, limit });
      await access.audit.noteRead(by.sessionId, { action: 'readAudit', accountId: by.accountId, address: request.ip });
      const last = events.length === limit ? events.at(-1) : undefined;
      return { events, nextCursor: last ? writeCursor({ at: last.at, id: last.id }) : null };
    },
  );
}
