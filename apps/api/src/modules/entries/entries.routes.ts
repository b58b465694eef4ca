import { type EntriesAnswer, type EntryPage, entriesAnswer, entryBatch, entryPage, paging } from '@slackwater/contract';
import { z } from 'zod';
import { signedInBy } from '../../access/access.plugin.ts';
import { readCursor, writeCursor } from '../cursor.ts';
import type { Parts } from '../parts.ts';
import { patientParams } from '../patients/patients.params.ts';
import { readPatient } from '../patients/read-patient.ts';
import type { Router } from '../router.ts';
import { entriesBefore } from './entries.repository.ts';
import { writeEntries } from './entries.usecases.ts';

const place = z.strictObject({ sequence: z.int32() });

export function entryRoutes(app: Router, parts: Parts) {
  app.post(
    '/api/entries',
    {
      schema: {
        summary: 'Write entries of one patient, or of the ward, into the record: all of them or none',
        description: 'The same entries sent twice are written once and answered with the same receipts.',
        tags: ['record'],
        body: entryBatch,
        response: { 200: entriesAnswer },
      },
    },
    (request): Promise<EntriesAnswer> => writeEntries(parts, signedInBy(request), request.body),
  );

  app.get(
    '/api/patients/:id/entries',
    {
      schema: {
        summary: "A patient's entries, newest first, with who wrote them and what became of them",
        tags: ['record'],
        params: patientParams,
        querystring: paging,
        response: { 200: entryPage },
      },
    },
    async (request): Promise<EntryPage> => {
      const patient = await readPatient(parts, request, request.params.id);
      const { cursor, limit } = request.query;
      const before = readCursor(cursor, place);
      const { entries, last } = await entriesBefore(parts.pool, patient, before?.sequence ?? null, limit);
      return { entries, nextCursor: last === null ? null : writeCursor({ sequence: last }) };
    },
  );
}
