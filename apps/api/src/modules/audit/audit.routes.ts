import { type AuditPage, auditPage, paging, uuid } from '@slackwater/contract';
import { z } from 'zod';
import { signedInBy } from '../../access/access.plugin.ts';
import { readCursor, writeCursor } from '../cursor.ts';
import type { Parts } from '../parts.ts';
import type { Router } from '../router.ts';
import { eventsBefore } from './audit.repository.ts';

// the database's clock has fractions of a millisecond, and its own last instant
const place = z.strictObject({ atMs: z.number().min(0).max(Date.UTC(2100, 0)), id: uuid });
const query = paging.extend({ patientId: uuid.optional(), accountId: uuid.optional() });

/** Who read whom, who signed in, who changed accounts: for managers. */
export function auditRoutes(app: Router, { access, pool }: Parts) {
  app.get(
    '/api/audit',
    {
      schema: {
        summary: 'Reads and sign-ins, newest first',
        tags: ['audit'],
        querystring: query,
        response: { 200: auditPage },
      },
    },
    async (request): Promise<AuditPage> => {
      const by = signedInBy(request);
      const site = access.openSite(by, 'readAudit');
      const { cursor, limit, patientId = null, accountId = null } = request.query;
      const before = readCursor(cursor, place);
      const events = await eventsBefore(pool, site, { patientId, accountId, limit, before });
      await access.audit.noteRead(by.sessionId, { action: 'readAudit', accountId: by.accountId, address: request.ip });
      const last = events.length === limit ? events.at(-1) : undefined;
      return { events, nextCursor: last ? writeCursor({ atMs: last.at, id: last.id }) : null };
    },
  );
}
