import type { Readable } from 'node:stream';
import { type ImportAnswer, importAnswer } from '@slackwater/contract';
import type { ZodTypeProvider } from 'fastify-type-provider-zod';
import { signedInBy } from '../../access/access.plugin.ts';
import type { Parts } from '../parts.ts';
import { wardParams } from '../patients/patients.params.ts';
import type { Router } from '../router.ts';
import { SheetError } from './import.csv.ts';
import { badRows, noSheet, others, stalled, tooLarge } from './import.errors.ts';
import { type UploadLimits, upload } from './import.upload.ts';
import { importSheet } from './import.usecases.ts';

/** Some 800,000 rows; what is larger is imported on the server itself. */
const MOST_BYTES = 100_000_000;
const LIMITS: UploadLimits = {
  mostBytes: MOST_BYTES,
  longestPauseMs: 30_000,
  tooLarge: () => tooLarge(MOST_BYTES),
  stalled,
};

/** Each holds a connection of the pool while its sheet arrives, however slowly; bedsides need the others. */
const MOST_AT_ONCE = 2;

export function importRoutes(app: Router, { access, pool, policies }: Parts) {
  let running = 0;
  app.register(async (scope) => {
    scope.removeAllContentTypeParsers();
    // Only here: a sheet is read as it arrives, never held whole.
    scope.addContentTypeParser('text/csv', (_request, payload, done) => done(null, payload));

    scope.withTypeProvider<ZodTypeProvider>().post(
      '/api/wards/:ward/import',
      {
        schema: {
          summary: 'Bring in a flow sheet of past exchanges',
          description:
            'The body is the sheet as text/csv (UTF-8); README, "Bringing a flow sheet in", says its columns. Whole or ' +
            'not at all; the same sheet twice changes nothing.',
          tags: ['import'],
          consumes: ['text/csv'],
          params: wardParams,
          response: { 200: importAnswer },
        },
      },
      async (request): Promise<ImportAnswer> => {
        const by = signedInBy(request);
        const ward = access.openWard(by, request.params.ward, 'importExport');
        if (request.body === undefined || request.body === null) throw noSheet('There is no file.');
        const body = request.body as Readable;
        if (running >= MOST_AT_ONCE) {
          // Unread, it would stand before the next request on this connection.
          body.resume();
          throw others(MOST_AT_ONCE);
        }
        running += 1;
        const result = await importSheet(pool, policies, {
          siteId: ward.siteId,
          source: upload(body, LIMITS),
          people: null,
          onlyWard: ward.wardId,
          author: by.accountId,
        })
          .catch((error: unknown) => {
            throw error instanceof SheetError ? noSheet(error.message) : error;
          })
          .finally(() => {
            running -= 1;
          });
        if ('refused' in result) throw badRows(result.refused);
        const { rows, added, known, patients } = result.imported;
        const detail = { rows, added, known, patients };
        await access.audit.note({
          action: 'imported',
          accountId: by.accountId,
          address: request.ip,
          wardId: ward.wardId,
          detail,
        });
        return detail;
      },
    );
  });
}
